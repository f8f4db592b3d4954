/**
 * How much is tried: counts, not time, so that the same reports give the same ranking. Work
 * is modes settled times the nodes of the circuit. Where a pair is met that predicts
 * everything, the search ends long before its last budget.
 */
export const BUDGET = {
  /** Work after which the pairs of groups that the estimate puts first are no longer tried. */
  estimated: 96_000,
  /** After which the fault that explains most is no longer tried with all others, then the next. */
  anchored: [127_000, 144_000],
  /**
   * Only while no pair predicts everything: after which pairs of which one fault hides much of
   * the other are not tried.
   */
  hidden: 195_000,
  /** So many of these. */
  hiding: 600,
  /** Likewise: after which the pairs that the estimate puts first for each group are not. */
  spread: 230_000,
  /** So many for each group. */
  each: 10,
  /** Likewise: after which what is likely by one mode is not. */
  byView: 400_000,
  /** Work for other members of the groups that fit best. */
  varied: 84_000,
  /** Members of the groups that explain most alone; of any other, one. */
  members: [4, 2],
  /** Twos of two groups tried before those that fit best are varied. */
  first: 2,
  /** Groups with an anchor of which as many are tried; of others, one. */
  closely: 30,
  /** Pairs of groups that each mode puts first, tried in a turn. */
  ofView: 40,
  /** Faults of each such group that act at the same nodes, as a core loose at either end. */
  ends: 2,
  /** Twos of two such groups that are different changes to the circuit. */
  unlike: 6,
  /** Groups tried with the anchor of a view, beside all faults that act where it does. */
  partners: 40,
  /** Twos that meet at one node, of all faults. */
  meeting: 600,
  /** Pairs handed over. */
  kept: 16,
} as const;
