/** What each code about house standards and reviews means. See `CATALOGUE`. */
export const STANDARD_CODES = {
  'standard-unknown': {
    title: 'Unknown house standard',
    why: 'An exception names a standard that is not there, so it excepts from nothing.',
    mend: 'Use the file name of an entry in standards/, without .mdx.',
  },
  'standard-without-why': {
    title: 'House standard without its reason',
    why: 'The body of a standard says why it exists. Nobody keeps, or rightly drops, a rule whose reason is lost.',
    mend: 'Write the reason after the frontmatter, in a few sentences.',
  },
  'standard-breached': {
    title: 'House standard not met',
    why: 'The circuit of this system, solved in its modes, does not do what the named standard asks. The build fails for a standard of severity danger or fault, and warns for advice.',
    mend: 'Change the wiring as the mend says. Where there is a reason not to, state an exception in the system: standard, why, by, from, until.',
  },
  'exception-astray': {
    title: 'Exception for what is not there',
    why: 'An exception may be narrowed to conductors, cables or items of its system; this is none of them.',
    mend: 'Name a cable as W3, a core as W3.BU, or an item as E1.',
  },
  'exception-out-of-date': {
    title: 'Exception that does not hold today',
    why: 'The exception has ended or has not begun, and the standard is not met. An exception is for a time, so that somebody looks again.',
    mend: 'Change the wiring, or have the exception allowed anew with other dates.',
  },
  'standard-conflicts': {
    title: 'House standard that the reference’s own systems do not meet',
    why: 'A firm that asks for more than the reference does finds the reference’s systems in breach. The files are not the firm’s, so what is found in them is told once, at the standard.',
    mend: 'Except each system with a reason and dates, put an entry of your own over it that meets the standard, or hide it. npm run check -- --firm FOLDER --exceptions writes the exceptions as drafts.',
  },
  'exception-unneeded': {
    title: 'Exception that covers nothing',
    why: 'The system meets the standard where the exception would let it be otherwise. Left in, it would hide the next breach.',
    mend: 'Take the exception out.',
  },
  'review-missing': {
    title: 'Entry that nobody is said to have reviewed',
    why: 'Readers are told who read an entry against the work it describes. A new entry is a copy of another, and nobody has read it yet. It is a warning; its page says so.',
    mend: 'Read it through, then put your name to it: npm run review -- KIND NAME --by "your name".',
  },
  'review-stale': {
    title: 'Review of what the entry no longer is',
    why: 'A review is of what was read: the entry’s own text and wiring, the devices that it holds, the figures that it gives. Something of it has changed since, here or in a device, so nobody has read it as it stands. It is a warning; its page says draft, and build --publish refuses it.',
    mend: 'Read what changed, then review it again: npm run review -- KIND NAME --by "your name". It shows the changes first.',
  },
  'review-altered': {
    title: 'Review in another’s name than its record',
    why: 'The folder reviews/ keeps who read the entry as it stands, and when. A name or a day written over by hand is nobody’s review.',
    mend: 'Take the line back as it was, or have whoever is named read it: npm run review -- KIND NAME --by "your name".',
  },
  'review-own': {
    title: 'Entry reviewed by its author',
    why: 'The firm asks for a second person: whoever wrote a page sees in it what was meant.',
    mend: 'Have somebody else review it, or take the line out of the settings of reviews.',
  },
  'review-ahead': {
    title: 'Review of a day to come',
    why: 'A review says when somebody read the entry. On that day nobody can have read it yet; mostly the year or the month was mistyped.',
    mend: 'State the day on which it was read; npm run review writes it.',
  },
  'review-overdue': {
    title: 'Review overdue',
    why: 'The date by which somebody was to look at this entry again has passed. It is a warning; a firm may make it fail.',
    mend: 'Review the entry, and state by whom, on which day, and when it is due again.',
  },
} as const;
