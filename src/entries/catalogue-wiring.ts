/** What each code about names, wiring and modes means. See `CATALOGUE`. */
export const WIRING_CODES = {
  'title-used-twice': {
    title: 'Title used twice',
    why: 'Readers choose by title; two equal ones cannot be told apart in a list.',
    mend: 'Say in the title what sets this entry apart. A device that extends another needs a title of its own.',
  },
  'term-unknown': {
    title: 'Unknown glossary entry',
    why: 'The page would point to nothing.',
    mend: 'Use the file name of a glossary entry, without .mdx.',
  },
  'device-unknown': {
    title: 'Unknown device',
    why: 'There is no file of that name in devices/.',
    mend: 'Use the file name of a device, without .mdx, or write the device.',
  },
  'device-cycle': {
    title: 'Devices that extend one another in a circle',
    why: 'Each waits for the other, so none has any terminals.',
    mend: 'Let one of them stand alone.',
  },
  'node-name-taken': {
    title: 'Node with a name in use',
    why: 'Terminals and internal nodes share one set of names; an element’s end must mean one point.',
    mend: 'Rename the node, and the ends that mean it.',
  },
  'end-undeclared': {
    title: 'Element at an undeclared point',
    why: 'An element lies between terminals or internal nodes of its own device.',
    mend: 'Correct the name, or declare it under terminals or nodes.',
  },
  'condition-undeclared': {
    title: 'Undeclared condition',
    why: 'A rule or a mode names a condition that the device does not have, so it could never be set.',
    mend: 'Correct the name, or declare the condition in the device.',
  },
  'element-undeclared': {
    title: 'Undeclared element',
    why: 'The device has no element of that name, or none of the kind asked for.',
    mend: 'Correct the name, or declare the element in the device.',
  },
  'element-not-felt': {
    title: 'Element that is never energised',
    why: 'Only loads, motors and sensing inputs have a rated voltage by which they are found energised or held.',
    mend: 'Name a load, motor or sensing input.',
  },
  'element-not-blown': {
    title: 'Element that never blows',
    why: 'Only a fuse or a breaker has a rating beyond which it goes.',
    mend: 'Name a fuse or a breaker of the device.',
  },
  'position-undeclared': {
    title: 'Undeclared position',
    why: 'The device’s mechanism has no such position.',
    mend: 'Correct the name, or add the position to the mechanism.',
  },
  'outcome-undeclared': {
    title: 'Undeclared outcome',
    why: 'A mode expects, or a symptom is known by, something that the device does not show.',
    mend: 'Correct the name, or declare the outcome in the device.',
  },
  'part-twice': {
    title: 'Part played by two terminals',
    why: 'When one device replaces another, a core goes to the one terminal that plays its part.',
    mend: 'Leave the part with the terminal a core goes to, and take it from the other.',
  },
  'wants-twice': {
    title: 'Service asked for by two conditions',
    why: 'A demand is known under another device’s name for it; with two names it could mean either.',
    mend: 'Say `wants` only of the condition that is the demand itself.',
  },
  'earth-terminal-missing': {
    title: 'Class I without an earth terminal',
    why: 'Class I equipment relies on its earth.',
    mend: 'Declare the terminal with `carries: earth`, or correct the protection class.',
  },
  'mains-misplaced': {
    title: 'Mains in the wrong device',
    why: 'A supply, and nothing else, holds one element of kind mains.',
    mend: 'Correct the family, or the element’s kind.',
  },
  'item-unknown': {
    title: 'Unknown item',
    why: 'The reference names an item that this system does not list.',
    mend: 'Correct the reference, or add the item.',
  },
  'terminal-undeclared': {
    title: 'Undeclared terminal',
    why: 'The item’s device has no terminal of that name.',
    mend: 'Correct the name, or declare the terminal in the device.',
  },
  'terminal-shown-twice': {
    title: 'Terminal behind two openings',
    why: 'What it takes to reach a terminal, and what may be read there, is said once.',
    mend: 'Leave it with the opening through which it is reached.',
  },
  'letter-differs': {
    title: 'Reference with the wrong letter',
    why: 'An item’s reference begins with the class letter (IEC 81346-2) of its device, so that a reader knows from Q1 that it switches.',
    mend: 'Rename the item everywhere in the system, or correct the device’s letter.',
  },
  'supply-count': {
    title: 'Not one supply',
    why: 'Every reading is taken from one supply of the house.',
    mend: 'List exactly one item whose device is of the family supply.',
  },
  'item-unconnected': {
    title: 'Item that no cable reaches',
    why: 'It has terminals and plays no part. Usually a core names another item by mistake.',
    mend: 'Join it, or take it out.',
  },
  'earth-unconnected': {
    title: 'Class I item without its earth',
    why: 'Class I equipment relies on its earth; no entry may show it without.',
    mend: 'Join the earth terminal by a green-yellow core.',
  },
  'earth-core-astray': {
    title: 'Earth joined to what is no earth',
    why: 'Green-yellow is for the earth only, and an earth joins nothing else.',
    mend: 'Take another core, or correct the terminal. If the terminal is an earth, its device says `carries: earth`.',
  },
  'earth-core-colour': {
    title: 'Earth by the wrong colour',
    why: 'An earth core is green-yellow and nothing else.',
    mend: 'Use the GNYE core, or correct the terminal.',
  },
  'earth-size-astray': {
    title: 'Earth size without an earth core',
    why: 'The size given belongs to a core that the cable does not have.',
    mend: 'Take earthSize out, or list GNYE under cores or spare.',
  },
  'core-used-twice': {
    title: 'Core used twice',
    why: 'A cable has one core of each colour here, and a core joins two terminals or is spare.',
    mend: 'Use another core; if two wires meet, join them at a terminal.',
  },
  'core-to-itself': {
    title: 'Conductor from a terminal to itself',
    why: 'It joins nothing.',
    mend: 'Correct one of its ends.',
  },
  'core-set-unknown': {
    title: 'Cores that no such cable has',
    why: 'Flexible cords come in the core sets of HD 308 S2, flat twin and earth with brown, blue and a bare protective conductor. A cable that does not exist cannot be fitted.',
    mend: 'List unused cores under spare, or choose a cable with more cores. For the lead a device comes with, use `fixed lead`.',
  },
  'cable-astray': {
    title: 'Cable that does not run between two items',
    why: 'A cable has two ends. Every core begins at the same item and ends at the same other item, written the same way round.',
    mend: 'Split it into two cables, turn the core round, or make it a link.',
  },
  'link-across-items': {
    title: 'Link between two items',
    why: 'A link is a short wire between terminals of one item.',
    mend: 'Use a core of a cable.',
  },
  'mode-missing': {
    title: 'Missing mode',
    why: 'Every dead test needs the mode with the isolator off, and an entry without a working mode proves nothing.',
    mend: 'Add the mode with its conditions and what is expected.',
  },
  'mode-unknown': {
    title: 'Unknown mode',
    why: 'A mode comes after one that is not there, a reading is taken in one, or a sign of a symptom is seen in one.',
    mend: 'Name a mode by its key in the system, as in hot-water.',
  },
  'mode-cycle': {
    title: 'Modes that come after one another in a circle',
    why: 'None of them has a beginning from which valves and cut-outs take their positions.',
    mend: 'Let one of them start afresh, without after.',
  },
  'mode-hunts': {
    title: 'Mode that does not settle',
    why: 'With the wiring as written, contacts and windings keep changing one another without end.',
    mend: 'Look at the items named: usually a relay feeds itself through its own break contact, or a rule in a device is the wrong way round.',
  },
  'wiring-differs': {
    title: 'One change of wiring makes every expectation hold',
    why: 'What modes expect and what the circuit gives differ, and one slip would explain all of it: two cores exchanged at one item, or one core in another terminal. What is listed beneath follows from it.',
    mend: 'Compare that core with what is on the wall, and change the wiring. Where the wiring is as it is written, what the modes expect is wrong: correct that.',
  },
  'expectation-differs': {
    title: 'Expected and computed differ',
    why: 'The author says what a person sees in this mode; the engine computes it from the wiring and the devices, and comes to something else. One of the three is wrong.',
    mend: 'Follow the live path in this mode by hand. Correct the wiring, the device, the conditions, or the expectation; never the expectation only because the engine says so.',
  },
  'circuit-refused': {
    title: 'Circuit that cannot be computed',
    why: 'The engine could not build or settle the circuit, for the reason in the message.',
    mend: 'Correct what the message names.',
  },
} as const;
