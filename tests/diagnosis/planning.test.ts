import { describe, expect, it } from 'vitest';
import { ISOLATED } from '../../schemas/index.ts';
import { type ChanceStep, chanceOrder } from '../../src/diagnosis/planning/index.ts';
import { baseMinutes, modeMinutes, openingMinutes } from '../../src/diagnosis/tests/index.ts';
import { mayBeAlike } from '../support/answers.ts';
import { ids, shipped } from '../support/signatures.ts';

/** Share of what is to be seen in an open box that looking and tugging find (from memory). */
const SEEN = 0.85;

/** Minutes to watch one mode for (common practice, no source). */
const WATCH = 3;

describe.each(ids)('what comes and goes in %s', (id) => {
  const { simulation, signatures } = shipped(id);
  const steps = chanceOrder(simulation.network, signatures);
  const at = new Map(signatures.tests.map((test, place) => [test.id, place]));

  /** Chance that a step shows a fault that is the cause. */
  const shownBy = (
    { tests }: ChanceStep,
    { fault, answers }: (typeof signatures.faults)[number],
  ) => {
    const places = tests.map((test) => at.get(test.id)!);
    if (places.some((one) => answers[one] === 'found')) return SEEN;
    const shows = places.some((one) => !mayBeAlike(answers[one]!, signatures.sound[one]!));
    return shows ? 1 - (fault.intermittent ?? 0) : 0;
  };

  it('finds each step what is left of the causes that it shows', () => {
    const left = signatures.faults.map(({ fault }) => fault.shares['comes and goes']);
    const all = left.reduce((a, b) => a + b, 0);
    let found = 0;
    for (const step of steps) {
      const { chance, found: by, finds } = step;
      let own = 0;
      signatures.faults.forEach((one, i) => {
        const share = shownBy(step, one);
        own += (left[i]! * share) / all;
        left[i]! *= 1 - share;
      });
      found += own;
      expect(chance).toBeCloseTo(own, 9);
      expect(by).toBeCloseTo(found, 9);
      expect(finds.reduce((sum, one) => sum + one.chance, 0)).toBeCloseTo(own, 9);
    }
    expect(found).toBeGreaterThan(0.3);
    expect(found).toBeLessThan(1);
  });

  // Stone, "Theory of Optimal Search" (1975): for one cause each, the most chance for its minutes
  // first is the order of least expected minutes.
  it('does next what finds most for its minutes, of all that could be done then', () => {
    const { network } = simulation;
    const left = signatures.faults.map(({ fault }) => fault.shares['comes and goes']);
    const opened = new Set<string>();
    let mode = Object.keys(network.system.modes).find((one) => one !== ISOLATED)!;
    const minutesOf = (step: ChanceStep): number => {
      const opens = step.place && !opened.has(step.place);
      return (
        modeMinutes(network, mode, step.mode) +
        (opens ? openingMinutes(network, step.place!) : 0) +
        step.tests.reduce((sum, test) => sum + baseMinutes(network, test), 0) +
        (step.kind === 'watch' ? WATCH : 0)
      );
    };
    const worth = (step: ChanceStep): number =>
      signatures.faults.reduce((sum, one, i) => sum + left[i]! * shownBy(step, one), 0) /
      minutesOf(step);
    for (const [k, step] of steps.entries()) {
      expect(step.minutes).toBeCloseTo(minutesOf(step), 9);
      const able = steps
        .slice(k)
        .filter(({ kind, place }) => kind !== 'test' || opened.has(place!));
      expect(worth(step)).toBeGreaterThanOrEqual(Math.max(...able.map(worth)) * (1 - 1e-9));
      signatures.faults.forEach((one, i) => {
        left[i]! *= 1 - shownBy(step, one);
      });
      mode = step.mode;
      if (step.place) opened.add(step.place);
    }
  });

  it('watches with covers on, and tests only in a box that was opened and looked into', () => {
    expect(steps[0]!.kind).toBe('watch');
    const opened = new Set<string>();
    for (const { kind, mode, place } of steps) {
      if (kind === 'watch') {
        expect(place).toBeNull();
        expect(mode).not.toBe(ISOLATED);
        continue;
      }
      expect(mode).toBe(ISOLATED);
      if (kind === 'test') expect(opened).toContain(place);
      opened.add(place!);
    }
    const once = steps.map(({ kind, mode, place }) => `${kind} ${mode} ${place}`);
    expect(new Set(once).size).toBe(steps.length);
  });
});
