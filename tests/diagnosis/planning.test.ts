import { describe, expect, it } from 'vitest';
import { ISOLATED } from '../../schemas/index.ts';
import { chanceOrder } from '../../src/diagnosis/planning/index.ts';
import { ids, shipped } from '../support/signatures.ts';

/** Share of what is to be seen in an open box that looking and tugging find (from memory). */
const SEEN = 0.85;

describe.each(ids)('what comes and goes in %s', (id) => {
  const { simulation, signatures } = shipped(id);
  const steps = chanceOrder(simulation.network, signatures);
  const at = new Map(signatures.tests.map((test, place) => [test.id, place]));

  it('finds each step what is left of the causes that it shows', () => {
    const left = signatures.faults.map(({ fault }) => fault.shares['comes and goes']);
    const all = left.reduce((a, b) => a + b, 0);
    let found = 0;
    for (const { tests, chance, found: by, finds } of steps) {
      let own = 0;
      signatures.faults.forEach(({ fault, answers }, i) => {
        const given = tests.map(({ id: test }) => answers[at.get(test)!]!);
        const sound = tests.map(({ id: test }) => signatures.sound[at.get(test)!]!);
        const shows = given.some((one, k) => one !== sound[k] && one !== 'unsettled');
        const share = given.includes('found')
          ? SEEN
          : Number(shows) * (1 - (fault.intermittent ?? 0));
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
