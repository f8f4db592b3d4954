import { compose } from '../../../src/diagnosis/faults/index.ts';
import {
  type Fault,
  HISTORIES,
  type History,
  instrumentFor,
  type Test,
} from '../../../src/diagnosis/index.ts';
import {
  ANSWER_CODES,
  ANSWERS,
  alphabetOf,
  answerWord,
  askedBy,
  both,
  type Case,
  type Hypothesis,
  Model,
  next,
  type Observation,
  observe,
  openCase,
  questionOf,
  type RankedRepair,
  rank,
  verdict,
} from '../../../src/diagnosis/inference/index.ts';
import { ORDERED_HISTORIES } from '../../../src/diagnosis/sequences/index.ts';
import { type Random, random } from '../../support/random.ts';
import { shippedSystem } from '../../support/shipped.ts';

const models = new Map<string, Model>();

/** The same model with some classes of faults weighed otherwise. */
export function reweighed(
  id: string,
  factor: (fault: Fault) => number,
  history: History = HISTORIES[0],
): Model {
  const { simulation, compact } = sourceOf(id);
  return new Model(simulation, compact, history, (fault) => fault.shares[history] * factor(fault));
}

function sourceOf(id: string) {
  const { simulation, compact } = shippedSystem(id);
  return { simulation, compact };
}

/** The model of a shipped system, made once a file. */
export function modelOf(id: string, history: History = HISTORIES[0]): Model {
  const known = models.get(`${id} ${history}`);
  if (known) return known;
  const { simulation, compact } = sourceOf(id);
  const model = new Model(simulation, compact, history);
  models.set(`${id} ${history}`, model);
  return model;
}

/** A fault in the model of the history that such a fault has. */
export function inItsHistory(id: string, fault: Hypothesis) {
  const model = modelOf(id, historyOf(fault));
  return { model, truth: model.singles.find((single) => single.id === fault.id)! };
}

/**
 * What the customer tells of such a fault, or of two at once: the history in which it is
 * likeliest, of those in which a fault shows each time. Where it comes and goes no answer rules
 * anything out for certain: that is held against visits (`visits.ts`) and Bayes' rule by hand.
 */
export function historyOf({ faults }: Hypothesis): History {
  const share = (history: History) =>
    faults.reduce((product, { shares }) => product * shares[history], 1);
  return ORDERED_HISTORIES.toSorted((a, b) => share(b) - share(a))[0]!;
}

const reports = new WeakMap<Test, Observation[]>();

/**
 * What an engineer reports who makes a listed test and gets the answer of a code: the same
 * report each time, so that what it says of every fault is worked out once.
 */
export function reported(test: Test, code: number): Observation {
  const known = reports.get(test) ?? [];
  reports.set(test, known);
  known[code] ??= reportOf(test, code);
  return known[code];
}

function reportOf(test: Test, code: number): Observation {
  const told = ANSWERS[code]!;
  // What nobody can tell beforehand shows one way or another on site.
  const dead = test.kind === 'dead' || test.kind === 'act';
  const isOpen = told === 'unsettled' || told === 'no short';
  const answer = isOpen ? (dead ? 'resistance' : 'between') : told;
  const { mode } = test;
  const made =
    test.kind === 'act'
      ? { kind: test.kind, mode, id: test.id, answer }
      : test.kind === 'look'
        ? { kind: test.kind, mode, outcome: test.outcome, answer }
        : test.kind === 'fuse'
          ? { kind: test.kind, mode, branch: test.branch, answer }
          : test.kind === 'dead'
            ? { kind: test.kind, mode, from: test.pair.from, to: test.pair.to, answer }
            : {
                kind: test.kind,
                mode,
                from: test.pair.from,
                to: test.pair.to,
                instrument: instrumentFor(test.pair).id,
                answer,
              };
  // The answer of a test is one of its kind's: the union cannot be told so piece by piece.
  return made as Observation;
}

/** A voltage read with the tester, or another instrument. */
export const live = (
  mode: string,
  from: string,
  to: string,
  answer: 'live' | 'dead' | 'between' | 'high',
  instrument: 'tester' | 'multimeter' | 'low-impedance' = 'tester',
): Observation => ({ kind: 'live', mode, from, to, instrument, answer });

/** An outcome looked at. */
export const look = (mode: string, outcome: string, seen: boolean): Observation => ({
  kind: 'look',
  mode,
  outcome,
  answer: seen ? 'seen' : 'not seen',
});

/** Faults that a listed test can find. */
export const detectable = ({ singles }: Model): Hypothesis[] =>
  singles.filter(({ faults, row }) => faults.length === 1 && row !== singles.at(-1)!.row);

/** Some of a list, each once, in a random order; all of it when it is no longer. */
export function some<T>(list: readonly T[], most: number, { below }: Random): T[] {
  const left = [...list];
  const taken: T[] = [];
  while (taken.length < most && left.length > 0) taken.push(...left.splice(below(left.length), 1));
  return taken;
}

/** Places of the looks in the first three modes that an engineer brings about. */
export function firstLooks({ tests }: Model): number[] {
  const modes = [...new Set(tests.flatMap((t) => (t.kind === 'look' ? t.mode : [])))].slice(0, 3);
  return [...tests.keys()].filter((at) => {
    const test = tests[at]!;
    return test.kind === 'look' && modes.includes(test.mode);
  });
}

/** What an engineer reports of a listed test whose answer is that of a row, or is misread. */
const told = ({ tests }: Model, row: Uint8Array, at: number, wrong: boolean, pick: Random) =>
  reported(tests[at]!, wrong ? otherAnswer(tests[at]!, row[at]!, pick) : row[at]!);

/**
 * Every listed test, answered in a random order.
 * @param misread how many of the answers are given wrongly.
 */
export function shuffled(model: Model, row: Uint8Array, pick: Random, misread = 0): Case {
  const order = some([...model.tests.keys()], model.tests.length, pick);
  const wrong = some(order, misread, pick);
  return order.reduce(
    (open, at) => observe(open, told(model, row, at, wrong.includes(at), pick)),
    openCase(model),
  );
}

/** Times that a reading is taken again. */
const MOST_AGAIN = 4;

/**
 * Every listed test in a random order; then, as often as the verdict asks for it, the reading
 * that stands alone against the rest again, which shows what is there.
 * @param misread how many of the answers are given wrongly at first.
 */
export function allRead(model: Model, row: Uint8Array, pick: Random, misread = 0): Case {
  let open = shuffled(model, row, pick, misread);
  for (let times = 0; times < MOST_AGAIN; times++) {
    const { kind, against } = verdict(open);
    if (kind !== 'one reading against') break;
    const again =
      open.observations[against[0]!] ?? open.observations[rank(open).explanations[0]!.against[0]!]!;
    const at = model.tests.findIndex((test) => reports.get(test)?.includes(again));
    open = observe(open, told(model, row, at, false, pick));
  }
  return open;
}

/** A job of which some reports, looks or readings, are wrong: one unless told. */
export function misreadJob(model: Model, { row }: Hypothesis, pick: Random, times = 1): Case {
  const reports = job(model, row!).observations.length;
  return job(model, row!, { misread: some([...Array(reports).keys()], times, pick), pick });
}

/** Most proposals that a job follows. */
const MOST_STEPS = 80;

/**
 * A job from its first looks to the last proposal, in a circuit whose answers are a row.
 * @param misread places of the reports, counted from the first look, that are given wrongly.
 */
export function job(
  model: Model,
  row: Uint8Array,
  { misread = [], pick = random(1) }: { misread?: readonly number[]; pick?: Random } = {},
): Case {
  const answer = (of: Case, at: number): Case => {
    const wrong = misread.includes(of.observations.length);
    return observe(of, told(model, row, at, wrong, pick));
  };
  let open = firstLooks(model).reduce(answer, openCase(model));
  for (let step = 0; step < MOST_STEPS; step++) {
    const at = proposedIn(open);
    if (at === null) break;
    open = answer(open, at);
    // Whoever finds something in a box sees what it is, and that it was no slip.
    if (row[at] === ANSWER_CODES.found && open.observations.at(-1)!.answer === 'found') break;
  }
  return open;
}

const proposals = new WeakMap<Model, Map<string, number | null>>();

/**
 * What is proposed in a case begun from nothing, as the place of a test: the same reports in the
 * same order are met in the jobs of many faults, and planned for once.
 */
function proposedIn(open: Case): number | null {
  const { model, observations } = open;
  const known = proposals.get(model) ?? new Map<string, number | null>();
  proposals.set(model, known);
  const path = observations
    .map((one) => `${model.listedAt(questionOf(one))}:${answerWord(one)}`)
    .join(' ');
  const before = known.get(path);
  if (before !== undefined) return before;
  const proposed = next(open);
  const at = proposed && model.testAt.get(proposed.test.id)!;
  known.set(path, at);
  return at;
}

/** A job as proposed from nothing, until nothing more is proposed or it says `not as shown`. */
export function endedJob(model: Model, row: Uint8Array): Case {
  let open = openCase(model);
  for (let step = 0; step < MOST_STEPS; step++) {
    const at = verdict(open).kind === 'not as shown' ? null : proposedIn(open);
    if (at === null) break;
    open = observe(open, reported(model.tests[at]!, row[at]!));
  }
  return open;
}

const KINDS: Readonly<
  Record<Exclude<Test['kind'], 'act'>, readonly (keyof typeof ANSWER_CODES)[]>
> = {
  look: ['seen', 'not seen'],
  live: ['live', 'dead', 'between'],
  dead: ['joined', 'resistance', 'open'],
  fuse: ['intact', 'blown', 'wrong rating'],
};

/** Another answer to the same test. */
export function otherAnswer(test: Test, code: number, { pick }: Random): number {
  const asked = askedBy(test);
  const direct = asked.kind === 'live' && asked.current === 'dc';
  const { first, size } = alphabetOf(asked);
  const words = direct
    ? (['dc', 'no dc'] as const)
    : test.kind === 'act'
      ? ANSWERS.slice(first, first + size)
      : KINDS[test.kind];
  return pick(words.map((word) => ANSWER_CODES[word]).filter((other) => other !== code));
}

/** Place of a repair that is right for a truth: the same repair, or the same answers. */
export const placeOfTruth = (repairs: readonly RankedRepair[], truth: Hypothesis): number =>
  repairs.findIndex(
    ({ key, explanations }) =>
      key === truth.repairKey ||
      explanations.some(({ hypothesis: { row } }) => row && sameRow(row, truth.row!)),
  );

/**
 * Whether the top is the truth or one of its ambiguity mates: the same repair, or among the
 * likeliest that the top repair mends one with the same answers; or it was found in a box.
 */
export function onTop(of: Case, truth: Hypothesis): boolean {
  if (isInHand(of, truth)) return true;
  const { key, explanations } = rank(of).repairs[0]!;
  const most = explanations[0]!.share * (1 - 1e-6);
  const mate = explanations.some(
    ({ hypothesis: { row }, share }) => share >= most && row !== null && sameRow(row, truth.row!),
  );
  return key === truth.repairKey || mate;
}

/** Whether something was found that is there: whoever finds it in a box sees what it is. */
export const isInHand = ({ model, observations }: Case, { row }: Hypothesis): boolean =>
  observations.some(
    (one) =>
      one.answer === 'found' && row![model.listedAt(questionOf(one))!] === ANSWER_CODES.found,
  );

/** Whether no answer that is certain tells two rows apart: what is to be seen may be overlooked. */
export const sameRow = (a: Uint8Array, b: Uint8Array): boolean =>
  a === b || a.every((code, i) => mayBe(code, b[i]!) || mayBe(b[i]!, code));

/** What tells nothing for certain: what is to be seen may be overlooked. */
const OPEN: readonly number[] = [ANSWER_CODES.unsettled, ANSWER_CODES.nothing, ANSWER_CODES.found];

const mayBe = (code: number, other: number): boolean =>
  code === other ||
  OPEN.includes(code) ||
  (code === ANSWER_CODES['no short'] && other !== ANSWER_CODES.joined);

/** Two single faults of two repairs at once, which no one of them answers like. */
export function observablePair(model: Model, { pick }: Random): Hypothesis {
  const singles = detectable(model);
  for (let tries = 0; tries < 1000; tries++) {
    const [a, b] = [pick(singles), pick(singles)];
    if (a.repairKey === b.repairKey || !compose(a.faults[0]!.edit, b.faults[0]!.edit)) continue;
    const pair = model.withRow(both(a, b, a.prior * b.prior, null));
    if (![a, b].some((one) => sameRow(one.row!, pair.row!))) return pair;
  }
  throw new RangeError('no two faults of this system can be seen to be two');
}
