/** The mode every system must have: its isolator off. */
export const ISOLATED = 'isolated';
