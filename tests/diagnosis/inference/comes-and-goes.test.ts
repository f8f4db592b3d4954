import { expect, test } from 'vitest';
import {
  ANSWER_CODES,
  type Case,
  type Hypothesis,
  type Model,
  observe,
  openCase,
  rank,
  SOUND,
  verdict,
} from '../../../src/diagnosis/inference/index.ts';
import { modelOf, reported } from './jobs.ts';

const ID = 'combi-two-wire';
/** Room stat whose contact sometimes does not close. */
const CONTACT = 'B1/contact:open';

/** How often a look is reported wrongly, and how many answers it can have. */
const [SLIP, ANSWERS] = [0.02, 3];

const singleOf = (model: Model, id: string): Hypothesis =>
  model.singles.find((one) => one.id === id)!;

/** A case with the answers of a row to some listed looks. */
const looked = (model: Model, open: Case, row: Uint8Array, looks: readonly number[]): Case =>
  looks.reduce((of, at) => observe(of, reported(model.tests[at]!, row[at]!)), open);

/** Places of the looks at which a fault shows: its answer is not a sound system's. */
const showing = ({ tests, singles }: Model, { row }: Hypothesis): number[] =>
  [...tests.keys()].filter(
    (at) => tests[at]!.kind === 'look' && row![at] !== singles.at(-1)!.row![at],
  );

const shareOf = (of: Case, id: string): number =>
  rank(of).explanations.find(({ hypothesis }) => hypothesis.id === id)!.share;

test('a look that finds all well weighs by how often the fault behaves (Bayes, by hand)', () => {
  const model = modelOf(ID, 'comes and goes');
  const fault = singleOf(model, CONTACT);
  const sound = model.singles.at(-1)!;
  const behaves = fault.faults[0]!.intermittent!;
  expect(behaves).toBeGreaterThan(0);
  const before = fault.prior / sound.prior;
  const open = looked(model, openCase(model), sound.row!, showing(model, fault).slice(0, 1));
  const right = 1 - SLIP;
  const likely = (1 - behaves) * (SLIP / (ANSWERS - 1)) + behaves * right;
  expect(shareOf(open, CONTACT) / shareOf(open, SOUND)).toBeCloseTo((before * likely) / right, 9);
});

test('what showed once and then behaves stays the likeliest; where it worked until now it does not', () => {
  for (const history of ['comes and goes', 'worked until now'] as const) {
    const model = modelOf(ID, history);
    const fault = singleOf(model, CONTACT);
    const [first, ...rest] = showing(model, fault);
    const once = looked(model, openCase(model), fault.row!, [first!]);
    const then = looked(model, once, model.singles.at(-1)!.row!, rest);
    const { against } = verdict(then);
    if (history === 'comes and goes') {
      expect(rest.length).toBeGreaterThan(0);
      const [top] = rank(then).explanations;
      expect(top!.hypothesis.row![first!]).toBe(fault.row![first!]);
      expect(shareOf(then, SOUND)).toBeLessThan(0.1);
      expect(against).toEqual([]);
    } else expect(against).not.toEqual([]);
  }
});

test('a system that behaves while it is looked at is not called sound', () => {
  const model = modelOf(ID, 'comes and goes');
  const looks = [...model.tests.keys()].filter((at) => model.tests[at]!.kind === 'look');
  const sound = model.singles.at(-1)!.row!;
  const open = looked(
    model,
    openCase(model),
    sound,
    looks.filter((at) => sound[at] !== ANSWER_CODES.unsettled).slice(0, 4),
  );
  expect(verdict(open).kind).not.toBe('found');
  expect(shareOf(open, SOUND)).toBeLessThan(0.5);
});
