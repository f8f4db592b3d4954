import type { Hypothesis } from './hypothesis.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import { spread, unlikeFirst } from './pair-candidates.ts';
import { BUDGET, PairSearch } from './pair-search.ts';
import { HOPELESS, type Tried } from './pair-trials.ts';
import { anchorsByView, candidatesByView } from './pair-views.ts';
import { ALLOWED_MISREADINGS } from './priors.ts';
import type { Steps } from './steps.ts';

/** How far below the best a pair is not handed over. */
const UNLIKELY = 9;

/**
 * Pairs of faults that explain what was reported best, likeliest first, each simulated as one
 * circuit with both its changes. Budgeted: where very much fits nothing it gives the best of
 * what it tried. It takes seconds: a step is one pair or a few.
 */
export function* pairsFor(model: Model, observations: readonly Observation[]): Steps<Hypothesis[]> {
  const search = new PairSearch(model, observations);
  yield* tryEstimated(search);
  yield* tryBesideLikeliest(search);
  if (!search.trials.whole) yield* tryDeeper(search);
  yield* tryVariations(search);
  return handedOver(search).map((pair) => model.withRow(pair));
}

/** The likeliest two of the pairs of groups that the estimate puts first. */
function* tryEstimated(search: PairSearch): Steps<void> {
  for (const { a, b } of search.candidates) {
    if (!search.within(BUDGET.estimated)) return;
    search.attemptLikeliest(a, b);
    yield;
  }
}

/**
 * The faults that explain most, alone or in the pairs tried so far, beside all others. What
 * two faults show where they meet is not to be had from either: one of them found, the other
 * is looked for.
 */
function* tryBesideLikeliest(search: PairSearch): Steps<void> {
  for (const [turn, most] of BUDGET.anchored.entries()) {
    const [alone, inPair] = [search.nextAlone(), search.nextInPair()];
    const anchor = turn % 2 === 0 ? (alone ?? inPair) : (inPair ?? alone);
    if (anchor !== undefined) yield* search.besideAll(anchor, () => !search.within(most));
  }
}

/** Pairs less likely by the estimate, of which only one that predicts everything is wanted. */
function* tryDeeper(search: PairSearch): Steps<void> {
  for (const [a, b] of search.hiding(BUDGET.hiding)) {
    if (search.trials.whole || !search.within(BUDGET.hidden)) break;
    search.attemptUnlike(a, b, ALLOWED_MISREADINGS);
    yield;
  }
  for (const { a, b } of spread(search.candidates, BUDGET.each)) {
    if (search.trials.whole || !search.within(BUDGET.spread)) break;
    search.attemptUnlike(a, b, ALLOWED_MISREADINGS);
    yield;
  }
  yield* tryByView(search);
}

/** What is likely by one mode alone, the first few of every mode, then the next few. */
function* tryByView(search: PairSearch): Steps<void> {
  const enough = () => search.trials.whole || !search.within(BUDGET.byView);
  const views = search.views();
  const likely = candidatesByView(search.model, views, BUDGET.ofView);
  for (const anchors of anchorsByView(search.model, views, search.neighbours)) {
    for (const { a, b } of likely.next().value ?? []) {
      if (enough()) return;
      search.attemptUnlike(a, b, ALLOWED_MISREADINGS, BUDGET.ends);
      yield;
    }
    const next = search.nextInPair() ?? search.nextAlone();
    if (next !== undefined && !enough()) yield* search.besideAll(next, enough, ALLOWED_MISREADINGS);
    for (const anchor of anchors) yield* search.besideAnchor(anchor, enough, ALLOWED_MISREADINGS);
    if (enough()) return;
  }
}

/** Other members of the groups of the pairs that fit best. */
function* tryVariations(search: PairSearch): Steps<void> {
  const { trials } = search;
  const varied = new Set<Tried>();
  const most = trials.work + BUDGET.varied;
  while (search.within(most)) {
    const one = trials.best().find((t) => !varied.has(t) && t.log > trials.most - HOPELESS);
    if (!one) return;
    varied.add(one);
    for (const a of search.matesOf(one.a)) search.attempt(a, one.b);
    for (const b of search.matesOf(one.b)) search.attempt(one.a, b);
    yield;
  }
}

/** The best of what was tried, one of each repair before the second of any. */
function handedOver({ trials }: PairSearch): Hypothesis[] {
  const likely = trials.best().filter((t) => t.log > trials.most - UNLIKELY);
  return unlikeFirst(likely, ({ pair }) => pair.repairKey)
    .slice(0, BUDGET.kept)
    .map(({ pair }) => pair);
}
