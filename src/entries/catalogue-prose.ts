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
