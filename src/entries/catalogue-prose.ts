/** What each code about symptoms and about components in bodies means. See `CATALOGUE`. */
export const PROSE_CODES = {
  'symptom-unknown': {
    title: 'Unknown symptom',
    why: 'The page would point to nothing.',
    mend: 'Use the file name of another symptom, without .mdx.',
  },
  'family-differs': {
    title: 'Device of another family',
    why: 'A sign names a family and devices of it. This device belongs to another, so the sign could never be seen on it.',
    mend: 'Correct the family, or take the device out.',
  },
  'symptom-unshown': {
    title: 'Appearance that no system can show',
    why: 'Causes are computed over the systems that can show all signs of an appearance together. None can: each lacks a device with the outcome or one of the modes, or the mode is `isolated` or not testable, so that nobody looks in it.',
    mend: 'Take signs and modes that one system has together; split what belongs to different arrangements into appearances of their own.',
  },
  'symptom-sound': {
    title: 'Symptom of a sound system',
    why: 'In every system that can show these signs they are so while nothing is wrong, so they are no symptom.',
    mend: 'Turn the sign round, or add one by which the symptom differs from a sound system.',
  },
  'word-not-used': {
    title: 'A word that the trade does not use',
    why: 'Whoever reads it on a call-out should meet the words heard on calls. The list is `src/words/terms.ts`: what is said, and what is not.',
    mend: 'Say it as the message proposes. Search still finds the other word: put it among the aliases.',
  },
  'text-colour': {
    title: 'Colour that no core has',
    why: 'Whoever recognises an arrangement by its colours would look for a core that is not there. The cables of the entry are what the page is worked out from.',
    mend: 'Name the colours that the cables have, or put the cables right.',
  },
  'text-item': {
    title: 'Item or cable that is not there',
    why: 'The sentence names one that this system does not have, as one copied from another system does.',
    mend: 'Name an item or cable of this system.',
  },
  'text-cores': {
    title: 'Count of cores that no cable has',
    why: 'Cores are counted in the hand. With the earth or without it, no cable of this system has so many.',
    mend: 'Say how many cores the cable has, or give the cable its cores: a spare one is a core too.',
  },
  'text-terminal': {
    title: 'Terminal that no item has',
    why: 'Whoever reads it looks for that number on the strip in front of them. No item of this system has such a terminal.',
    mend: 'Name the terminal by its number in this entry, or by <Term at="…" />, which is checked.',
  },
  'text-ways': {
    title: 'Count of ways that no box has',
    why: 'A box is recognised by how many ways it has. No box of this system has so many.',
    mend: 'Say how many ways the box has, or take the device that has so many.',
  },
  'text-feature': {
    title: 'Recognised by what is not there',
    why: 'An arrangement is told from its neighbours by these lines. This one names a feature that the entry has neither among its features nor as an item, as a line copied from another system does.',
    mend: 'Say what this system is recognised by, or give the entry the feature.',
  },
  'text-fuse': {
    title: 'Rating that no fuse has',
    why: 'A fuse is replaced by the rating that the page names. No fuse and no MCB of this system has this one.',
    mend: 'Name the rating of the entry, or rate the item otherwise under ratings.',
  },
  'text-figure': {
    title: 'Figure typed where it is computed',
    why: 'A volt or an ohm in the body of a system is worked out from its wiring, and changes with it. One that is typed stays as it is.',
    mend: 'Show it by <Reading at="…" mode="…" />, or say it without the figure.',
  },
  'text-limit': {
    title: 'Limit that the rule does not have',
    why: 'People read the title; systems are judged by the rule. After a change of the rule the two differ.',
    mend: 'Say the limit of the rule.',
  },
  'text-link': {
    title: 'Link to a page that is not there',
    why: 'Whoever taps it stands before nothing, and with no signal does not know why.',
    mend: 'Name the folder and the file name of an entry, as in /procedures/dead-tests/.',
  },
  'text-copied': {
    title: 'Text of another entry',
    why: 'Two entries of a kind with one summary cannot be told apart in a list or a search; mostly one was copied and not written anew.',
    mend: 'Say what is true of this one.',
  },
  'component-unknown': {
    title: 'Unknown component in a body',
    why: 'The body of a system may hold <Reading> and <Term>; no other body holds any. The page could not be built.',
    mend: 'Correct the name, or write the words out. A figure is never typed.',
  },
  'attribute-unknown': {
    title: 'Unknown attribute',
    why: 'A reading takes at, mode and to; a terminal takes at. Anything else has no effect.',
    mend: 'Correct the name, or take it out.',
  },
  'attribute-missing': {
    title: 'Missing attribute',
    why: 'A reading needs a terminal and a mode, a terminal its name.',
    mend: 'Add it, as in at="E1.call feed".',
  },
  'attribute-form': {
    title: 'Attribute in the wrong form',
    why: 'A component is given plain text in quotation marks, once for each attribute; a body is prose and holds no programs.',
    mend: 'Write name="text".',
  },
  'reading-against-nothing': {
    title: 'Reading against nothing',
    why: 'A voltage is read between two points. A line is read against the neutral or earth joined at its own item, a neutral against its earth, one side of a call against the other; this terminal has none of these, or is joined to nothing itself.',
    mend: 'Say what it is read against, as in to="E1.N".',
  },
} as const;
