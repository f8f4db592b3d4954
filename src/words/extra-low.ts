/**
 * What to mind at each end of an extra-low-voltage pair: mains on it kills where nobody looks
 * for it, and an insulation tester destroys what it joins (common practice, no source).
 */
export const EXTRA_LOW_PAIR =
  'Extra-low-voltage pair: first prove each core to earth with the two-pole tester; mains there stops the work. Only then a multimeter, and never an insulation tester.';

/** The same where no earth is at hand. */
export const EXTRA_LOW_NO_EARTH = 'No earth comes here: prove it at the pair’s other end first.';
