/** What each code about modules means. See `CATALOGUE`. */
export const MODULE_CODES = {
  'module-name-unknown': {
    title: 'A module names what its items do not have',
    why: 'A terminal, condition or outcome in a module is that of one of its items, whose device declares it; a note on a pair names another module, and ways of wiring of its own.',
    mend: 'Write ITEM.name with an item of this module and a name that its device has.',
  },
  'module-incomplete': {
    title: 'A module without what its slot asks for',
    why: 'Systems are composed by what each slot gives: a clock and a control their contacts, a valve what opens it, a boiler its call.',
    mend: 'Add what the message names, or choose the slot that fits.',
  },
  'composition-refused': {
    title: 'Parts that have no circuit together',
    why: 'Something has no terminal to go to: a pump without an output, a contact without a live, a module that is not there.',
    mend: 'Choose a module that has the terminal, or write the system out without compose.',
  },
} as const;
