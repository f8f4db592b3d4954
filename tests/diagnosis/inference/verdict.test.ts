import { describe, expect, test } from 'vitest';
import { SEEN_SHARE } from '../../../src/diagnosis/faults/index.ts';
import {
  ANSWER_CODES,
  type Case,
  type Explanation,
  type Model,
  type Observation,
  observe,
  openCase,
  rank,
  verdict,
} from '../../../src/diagnosis/inference/index.ts';
import { needsPairs } from '../../../src/diagnosis/inference/posterior.ts';
import { MISREADING, PRIOR, UNEXPLAINED_TRIP } from '../../../src/diagnosis/inference/priors.ts';
import { random } from '../../support/random.ts';
import {
  allRead,
  detectable,
  historyOf,
  live,
  look,
  modelOf,
  observablePair,
  reported,
  reweighed,
  shuffled,
} from './jobs.ts';

const ID = 'combi-two-wire';
const reporting = (model: Model, ...observations: Observation[]): Case =>
  observations.reduce(observe, openCase(model));
const shareOf = (of: Case, is: (explanation: Explanation) => boolean) =>
  rank(of).explanations.find(is)!.share;
const single = (id: string) => (explanation: Explanation) => explanation.hypothesis.id === id;

/** A boiler that the firm's visits would have found failed far oftener than anything else. */
const boilerAlways = () => reweighed(ID, ({ repairKey }) => (repairKey === 'boiler E1' ? 1e5 : 1));

describe('the posterior by hand', () => {
  const model = modelOf(ID);
  const dark = look('heating', 'E1.display', false);
  const at = model.tests.findIndex(
    (one) => one.kind === 'look' && one.mode === 'heating' && one.outcome === 'E1.display',
  );

  // Bayes' rule over singles and what the entry does not model, of which any share strays and
  // answers anything: seen, not seen, comes and goes are then equally likely.
  test('after one look: priors, the rate of misreading, and what the entry does not model', () => {
    const likelihood = (row: Uint8Array) => {
      const code = row[at]!;
      if (code === ANSWER_CODES.unsettled) return 1 / 3;
      return code === ANSWER_CODES['not seen'] ? 1 - MISREADING.look : MISREADING.look / 2;
    };
    const known = model.singles.map(({ prior, row }) => prior * likelihood(row!));
    const priors = model.singles.reduce((sum, { prior }) => sum + prior, 0);
    const mean = known.reduce((sum, one) => sum + one, 0) / priors;
    const strays = [0.1, 0.3, 0.5, 0.7, 0.9];
    const strayed =
      strays.reduce((sum, share) => sum + (1 - share) * mean + share / 3, 0) / strays.length;
    const other = PRIOR.notAsShown * strayed;
    const total = other + known.reduce((sum, one) => sum + one, 0);
    const trips = rank(reporting(model, dark)).explanations.filter(
      ({ hypothesis: { faults } }) =>
        faults.length === 1 && ['fuse', 'breaker'].includes(faults[0]!.class),
    );
    const ofTrips = trips.reduce((sum, { share }) => sum + share, 0);
    const unexplained = (ofTrips / (1 - UNEXPLAINED_TRIP)) * UNEXPLAINED_TRIP;
    expect(trips.length).toBeGreaterThan(0);
    expect(rank(reporting(model, dark)).notAsShown).toBeCloseTo(other / total + unexplained, 9);
  });

  test('a blown fuse keeps four parts of five beside a short that blows it', () => {
    const open = reporting(model, dark, {
      kind: 'fuse',
      mode: 'isolated',
      branch: 'Q1/fuse',
      answer: 'blown',
    });
    const alone = model.singles.find(({ id }) => id === 'Q1/fuse:blown')!;
    const short = model.singles.find(
      ({ id, row }) => /^W2.*:short$/.test(id) && row![at] === alone.row![at],
    )!;
    const ratio = shareOf(open, single(alone.id)) / shareOf(open, single(short.id));
    expect(ratio / (alone.prior / short.prior)).toBeCloseTo(1 - UNEXPLAINED_TRIP, 9);
  });

  test('nothing seen in an open box is overlooked as often as looking misses, no misreading', () => {
    const inside = model.tests.find(({ id }) => id === 'inside:B1/backplate')!;
    const loose = single('W3.BN@2:loose');
    const welded = (one: Explanation) =>
      one.hypothesis.faults[0]?.id.startsWith('E1:') === true && one.hypothesis.faults.length === 1;
    const before = reporting(model, look('heating', 'E1.burner', false));
    const after = observe(before, reported(inside, ANSWER_CODES.nothing));
    const ratio = (of: Case) => shareOf(of, loose) / shareOf(of, welded);
    // Whoever has nothing to find there finds nothing, but for a slip.
    expect(ratio(after) / ratio(before)).toBeCloseTo(
      (1 - SEEN_SHARE) / (1 - MISREADING.reading),
      2,
    );
  });
});

describe('what is ranked', () => {
  const model = modelOf(ID);

  test('repairs, by what all their causes weigh together', () => {
    const { repairs } = rank(reporting(model, look('heating', 'E1.display', false)));
    const shares = repairs.map(({ share }) => share);
    expect(shares).toEqual(shares.toSorted((a, b) => b - a));
    const likeliest = repairs.map(({ explanations }) => explanations[0]!.share);
    expect(likeliest).not.toEqual(likeliest.toSorted((a, b) => b - a));
  });

  test('two faults together, against the one report that was a slip', () => {
    const truth = observablePair(model, random(1));
    const open = allRead(modelOf(ID, historyOf(truth)), truth.row!, random(1), 1);
    const [top] = rank(open).explanations;
    expect(top!.hypothesis.faults).toHaveLength(2);
    expect(top!.against).toHaveLength(1);
    const question = (at: number) => ({ ...open.observations.at(at)!, answer: '' });
    // What was taken again, and then was otherwise.
    expect(question(-1)).toEqual(question(top!.against[0]!));
    expect(open.observations.at(-1)).not.toEqual(open.observations[top!.against[0]!]);
  });

  test('two faults are looked for only where one leaves more than a slip unexplained', () => {
    const loose = detectable(model).find(({ id }) => id === 'W2.BN@2:loose')!;
    const told = (misread: number, seed = 3) =>
      shuffled(model, loose.row!, random(seed), misread).observations;
    const { row } = observablePair(model, random(1));
    expect(needsPairs(model, [])).toBe(false);
    expect(needsPairs(model, told(0))).toBe(false);
    expect(needsPairs(model, told(1))).toBe(false);
    expect(needsPairs(model, told(2, 5))).toBe(true);
    expect(needsPairs(model, shuffled(model, row!, random(1)).observations)).toBe(true);
  });
});

describe('the verdict', () => {
  const firing = look('heating', 'E1.burner', true);
  const dark = look('heating', 'E1.display', false);

  test('says so where nothing is reported', () => {
    const open = openCase(modelOf(ID));
    expect(verdict(open)).toEqual({
      kind: 'nothing reported',
      text: 'Nothing reported yet.',
      against: [],
      found: null,
    });
  });

  test('asks for a report again that was made once and stands alone, however little fits', () => {
    const open = reporting(modelOf(ID), firing, dark, look('hot-tap', 'E1.burner', true));
    expect(rank(open).notAsShown).toBeGreaterThan(0.5);
    expect(verdict(open)).toEqual({
      kind: 'one reading against',
      text: 'One report stands against the likeliest explanation: take that reading again.',
      against: [1],
      found: null,
    });
  });

  test('asks for it again though it was given twice, where all else fits one cause', () => {
    const model = modelOf(ID);
    const loose = detectable(model).find(({ id }) => id === 'W2.BN@2:loose')!;
    const once = shuffled(model, loose.row!, random(3), 1);
    const [slip] = verdict(once).against;
    const twice = observe(once, once.observations[slip!]!);
    expect(rank(twice).notAsShown).toBeLessThan(0.01);
    expect(verdict(twice)).toMatchObject({
      kind: 'one reading against',
      against: [once.observations.length],
    });
  });

  test('never finds that nothing is wrong, not where a slip was put right', () => {
    const model = modelOf(ID);
    const sound = model.singles.at(-1)!;
    const slip = reporting(model, look('heating', 'E1.burner', false));
    const open = model.tests.reduce(
      (of, one, at) => observe(of, reported(one, sound.row![at]!)),
      slip,
    );
    expect(rank(open).repairs[0]!.share).toBeGreaterThan(0.9);
    expect(rank(open).explanations[0]!.hypothesis).toBe(sound);
    expect(verdict(open)).toMatchObject({ kind: 'fits', found: null });
  });

  test('is “not as shown” where two reports stand against the best, though nothing rivals it', () => {
    const model = modelOf(ID);
    const loose = detectable(model).find(({ id }) => id === 'W2.BN@2:loose')!;
    const open = shuffled(model, loose.row!, random(5), 2);
    expect(rank(open).notAsShown).toBeLessThan(0.01);
    expect(verdict(open).against).toHaveLength(2);
    expect(verdict(open).kind).toBe('not as shown');
  });

  test('is “not as shown” where one answer, given twice, fits nothing that is drawn', () => {
    const open = reporting(modelOf(ID), firing, dark, dark, firing);
    expect(verdict(open).against).toHaveLength(1);
    expect(verdict(open).kind).toBe('not as shown');
  });

  test('finds nothing by the prior alone, however certain it makes the cause', () => {
    const open = reporting(
      boilerAlways(),
      look('heating', 'E1.burner', false),
      look('hot-tap', 'E1.burner', false),
    );
    expect(rank(open).repairs[0]).toMatchObject({ key: 'boiler E1' });
    expect(rank(open).repairs[0]!.share).toBeGreaterThan(0.9);
    expect(verdict(open)).toMatchObject({ kind: 'fits', found: null });
  });

  test('finds nothing by the one report that is amiss, which nothing else confirms', () => {
    const open = reporting(
      boilerAlways(),
      look('heating', 'E1.burner', false),
      look('heating', 'E1.display', true),
      look('heating', 'E1.lockout', false),
      live('heating', 'E1.call return', 'E1.N', 'live'),
    );
    expect(rank(open).repairs[0]!.share).toBeGreaterThan(0.9);
    expect(verdict(open)).toMatchObject({ kind: 'fits', found: null });
  });
});
