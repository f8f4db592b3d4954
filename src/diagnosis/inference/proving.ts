import { proofOf, type Shown } from '../planning/index.ts';
import { answersOf } from './codes.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import type { Ranking } from './posterior.ts';
import { questionOf } from './question.ts';

/** Place in the list of the test that was made, with whatever instrument. */
function listedAs(model: Model, made: Observation): number | undefined {
  const listed = model.listedAt(questionOf(made));
  if (listed !== undefined || made.kind !== 'live') return listed;
  const at = model.tests.findIndex(
    (test) =>
      test.kind === 'live' &&
      test.mode === made.mode &&
      test.pair.from === made.from &&
      test.pair.to === made.to,
  );
  return at === -1 ? undefined : at;
}

const shown = new WeakMap<Model, Shown>();

/** What every single fault of a model shows, in words. */
function shownIn(model: Model): Shown {
  const known = shown.get(model);
  if (known) return known;
  const made: Shown = {
    tests: model.tests,
    sound: answersOf(model.singles.at(-1)!.row!),
    faults: model.singles.flatMap(({ faults: [fault], row }) =>
      fault && row ? { fault, answers: answersOf(row) } : [],
    ),
  };
  shown.set(model, made);
  return made;
}

/**
 * Place of the test at a part that proves it to have failed, where one fault of it accounts for
 * all that was reported and nothing reported proves it: a boiler is handed over once supply and
 * call are read at its strip. Where somebody has worked on it, the part's own box is compared
 * before. Null too where it may behave well just then, and where nothing is reported.
 * @param allows whether a test can be made, by its place in the list; where comparing cannot, the
 * part is read without
 */
export function provingTest(
  model: Model,
  { repairs: [top] }: Ranking,
  observations: readonly Observation[],
  allows: (at: number) => boolean = () => true,
): number | null {
  const last = observations.at(-1);
  const left = (top?.explanations ?? []).filter(({ against }) => against.length === 0);
  const [likeliest] = left;
  if (!last || !likeliest || model.behavesWell(likeliest.hypothesis) > 0) return null;
  const faults = left.flatMap(({ hypothesis }) =>
    hypothesis.faults.length === 1 && hypothesis.row ? hypothesis.faults : [],
  );
  const [part] = faults;
  if (part?.origin !== 'part') return null;
  const made = new Set(observations.flatMap((one) => listedAs(model, one) ?? []));
  const [item] = part.id.split(/[:/]/);
  if (model.history === 'since work') {
    const comparing = model.tests.findIndex(
      (test, at) =>
        test.kind === 'act' &&
        test.act === 'compare' &&
        test.place.startsWith(`${item}/`) &&
        !made.has(at) &&
        allows(at),
    );
    if (comparing !== -1) return comparing;
  }
  const { network } = model.simulation;
  const proof = proofOf(network, shownIn(model), faults, last.mode, made);
  // What is read elsewhere is asked for by what it tells apart.
  return proof?.test.place?.startsWith(`${item}/`) ? model.testAt.get(proof.test.id)! : null;
}
