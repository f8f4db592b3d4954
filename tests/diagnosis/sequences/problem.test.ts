import { describe, expect, it } from 'vitest';
import { sequenceProblem } from '../../../src/diagnosis/planning/index.ts';
import {
  ANYTHING,
  classesByLooks,
  NOTHING_SEEN,
  type Start,
  startsOf,
} from '../../../src/diagnosis/sequences/index.ts';
import { ids, shipped, symptoms } from '../../support/signatures.ts';

const starts = (id: string): Start[] => {
  const { simulation, signatures } = shipped(id);
  return startsOf(symptoms, simulation.network, signatures);
};
const start = (id: string, complaint: string): Start => {
  const found = starts(id).find((one) => one.id === complaint);
  if (!found) throw new RangeError(`${id} has no start ${complaint}`);
  return found;
};

describe.each(ids)('%s', (id) => {
  it('has a complaint for every fault that any test finds', () => {
    const [any, ...complaints] = starts(id);
    const { faults } = shipped(id).signatures;
    expect(any!.id).toBe(ANYTHING);
    expect(any!.open.map(({ fault }) => fault?.id)).toEqual([
      ...faults.map(({ fault }) => fault.id),
      undefined,
    ]);
    const covered = new Set(complaints.flatMap(({ open }) => open.map((one) => one.fault?.id)));
    expect(faults.filter(({ fault }) => !covered.has(fault.id))).toEqual([]);
  });

  it('puts the answers of every start into codes that read back', () => {
    const { simulation, signatures } = shipped(id);
    const at = new Map(signatures.tests.map((test, place) => [test.id, place]));
    for (const one of starts(id)) {
      const made = sequenceProblem(simulation.network, signatures, one.open, one);
      // What a look inside finds is twice there: found, and overlooked.
      const seen = one.open.filter(({ answers }) => answers.includes('found')).length;
      expect(made.problem.faults).toHaveLength(one.open.length + seen);
      const weight = (list: typeof one.open) => list.reduce((sum, o) => sum + o.weight, 0);
      expect(weight(made.open)).toBeCloseTo(weight(one.open), 9);
      made.problem.tests.forEach((test, i) => {
        const place = at.get(test.id)!;
        const own = made.open.map(({ answers }) => answers[place]!);
        // Where a board decides for one of them, a short is all that ohms tell.
        const asRead = (answer: string) =>
          own.includes('no short') && answer !== 'joined' ? 'no short' : answer;
        expect(made.sound[i]).toBe(asRead(signatures.sound[place]!));
        expect(Array.from(test.answers, (code) => made.answers[i]![code])).toEqual(own.map(asRead));
        expect(new Set(Array.from(test.answers)).size, test.id).toBeGreaterThan(1);
      });
    }
  });

  it('shows one picture in each class once everything has been looked at', () => {
    const { simulation, signatures } = shipped(id);
    const looks = signatures.tests.flatMap(({ kind }, i) => (kind === 'look' ? [i] : []));
    for (const one of starts(id)) {
      const classes = classesByLooks(signatures, one.open);
      expect(classes.flat()).toHaveLength(one.open.length);
      const pictures = classes.map((open) => {
        const seen = new Set(open.map(({ answers }) => looks.map((i) => answers[i]).join()));
        expect(seen.size).toBe(1);
        const made = sequenceProblem(simulation.network, signatures, open, {
          mode: one.mode,
          allows: (at) => signatures.tests[at]!.kind !== 'look',
        });
        expect(made.tests.some(({ kind }) => kind === 'look')).toBe(false);
        return [...seen][0];
      });
      expect(new Set(pictures).size).toBe(classes.length);
    }
  });
});

describe('a two-wire room control on a combi boiler', () => {
  const id = 'combi-two-wire';
  const { simulation, signatures } = shipped(id);

  it('keeps the sound circuit open where nothing has been seen to be wrong, and only there', () => {
    const kept = starts(id).filter(({ open }) => open.some(({ fault }) => fault === null));
    expect(kept.map((one) => one.id)).toEqual([ANYTHING, NOTHING_SEEN]);
  });

  it('gives each kind of test its minutes, looks no place, dead tests the isolated mode', () => {
    const { open, ...beginning } = start(id, ANYTHING);
    const { problem, tests } = sequenceProblem(simulation.network, signatures, open, beginning);
    const modes = Object.keys(simulation.network.system.modes);
    // Minutes of an act: common practice, no source.
    const acts = { look: 0, live: 0.5, dead: 0.5, fuse: 2 / 3 };
    expect(new Set(tests.map(({ kind }) => kind))).toEqual(new Set([...Object.keys(acts), 'act']));
    tests.forEach((test, i) => {
      const { mode, place, minutes } = problem.tests[i]!;
      if (test.kind === 'act') return;
      // A gauge is read in whatever mode one stands: no mode changes it.
      const isGauge = test.kind === 'look' && /pressure|gas|condensate/.test(test.outcome);
      if (test.kind !== 'fuse') expect(modes[mode]).toBe(isGauge ? 'standby' : test.mode);
      const byLongLead = test.kind === 'dead' && test.pair.kind === 'earth continuity';
      expect(minutes).toBe(byLongLead ? 1.5 : acts[test.kind]);
      expect(place === -1).toBe(test.kind === 'look' || test.kind === 'fuse');
      if (test.kind === 'dead') expect(test.mode).toBe('isolated');
    });
    // Isolated, locked off and proved dead in 4; the supply put back in 2: common practice, no source.
    const [standby, isolated] = [modes.indexOf('standby'), modes.indexOf('isolated')];
    const between = (from: number, to: number) => (problem.modeMinutes[from] as number[])[to];
    expect(between(standby, isolated)).toBe(4);
    expect(between(isolated, standby)).toBe(1 + 2);
    expect(modes[problem.start.mode]).toBe('standby');
    expect(modes[problem.openingMode!]).toBe('isolated');
  });

  it('gives the front fuse two ways: a switch thrown, and isolated as one stands', () => {
    const { open, ...beginning } = start(id, ANYTHING);
    const { problem, tests } = sequenceProblem(simulation.network, signatures, open, beginning);
    const modes = Object.keys(simulation.network.system.modes);
    const [standby, isolated, front] = [
      modes.indexOf('standby'),
      modes.indexOf('isolated'),
      modes.length,
    ];
    const ways = tests.flatMap(({ kind }, i) => (kind === 'fuse' ? [problem.tests[i]!.mode] : []));
    expect(ways.toSorted()).toEqual([front, isolated].toSorted());
    const between = (from: number, to: number) => (problem.modeMinutes[from] as number[])[to]!;
    expect(between(standby, front)).toBe(0.25);
    // By way of the front nothing is isolated, and nothing restored, for less.
    expect(between(standby, front) + between(front, isolated)).toBeGreaterThanOrEqual(4);
    expect(between(isolated, front) + between(front, standby)).toBeGreaterThan(2);
  });

  it('gives one repair one index, and the sound circuit its own', () => {
    const { open, ...beginning } = start(id, ANYTHING);
    const made = sequenceProblem(simulation.network, signatures, open, beginning);
    const { problem } = made;
    const keys = made.open.map(({ fault }) => fault?.repairKey);
    problem.faults.forEach(({ repair }, i) => {
      problem.faults.forEach((other, j) => {
        expect(other.repair === repair).toBe(keys[i] === keys[j]);
      });
    });
  });

  it('refuses a mode the system has not, and nothing to tell apart', () => {
    const { open } = start(id, ANYTHING);
    const make = (of: typeof open, mode: string) => () =>
      sequenceProblem(simulation.network, signatures, of, { mode });
    expect(make(open, 'hot-water')).toThrow(/combi-two-wire has no mode hot-water; it has standby/);
    expect(make([], 'standby')).toThrow(/something to tell apart/);
  });
});
