import { expect, test } from 'vitest';
import { simulate } from '../../../src/circuit/index.ts';
import {
  type Fault,
  faultsOf,
  WEIGHTS,
  type WeightClass,
} from '../../../src/diagnosis/faults/index.ts';
import { shippedNetworks } from '../../support/content.ts';

/** Core ends that a mistake takes hold of, as in `W3.BN@2`. */
const endsOf = ({ edit }: Fault): string[] =>
  edit.touches.flatMap((t) => (t.startsWith('end ') ? t.slice('end '.length) : []));

/** Sum of a class's weights by core end, each mistake at two ends half to either. */
function byEnd(faults: readonly Fault[], ...classes: WeightClass[]): Map<string, number> {
  const sums = new Map<string, number>();
  for (const fault of faults) {
    if (!classes.includes(fault.class)) continue;
    const ends = endsOf(fault);
    for (const end of ends) sums.set(end, (sums.get(end) ?? 0) + fault.weight / ends.length);
  }
  return sums;
}

const networks = shippedNetworks();

test.each([...networks.keys()])(
  '%s: a mistake at a core end weighs the same in however many ways',
  (id) => {
    const faults = faultsOf(simulate(networks.get(id)!));
    for (const [kind, least] of [
      ['switchedFeed', 1],
      ['neighbour', 4],
    ] as const) {
      const sums = byEnd(faults, kind);
      expect(sums.size, kind).toBeGreaterThanOrEqual(least);
      for (const [end, sum] of sums) expect(sum, end).toBeCloseTo(WEIGHTS[kind].weight, 10);
    }
    // Exchanges: every end half a share of its own, and half of a share of each partner's.
    const exchanges = byEnd(faults, 'exchanged', 'polarity');
    const all = [...exchanges.values()].reduce((sum, weight) => sum + weight, 0);
    expect(all).toBeLessThanOrEqual((exchanges.size / 2) * WEIGHTS.exchanged.weight * 1.0001);
    expect(all).toBeGreaterThan((exchanges.size / 2) * WEIGHTS.polarity.weight * 0.9999);
  },
);

test('every fault names its class, and weighs no more than it', () => {
  for (const network of networks.values())
    for (const fault of faultsOf(simulate(network))) {
      expect(WEIGHTS[fault.class].source, fault.id).toBe(fault.source);
      expect(fault.weight, fault.id).toBeLessThanOrEqual(WEIGHTS[fault.class].weight);
    }
});

// MIL-HDBK-217F Notice 2 (1995), Appendix A, parts count, failures per million hours, ground
// benign and ground fixed.
test.each([
  ['contactOpen', 0.15, 0.44],
  ['handSwitch', 0.001, 0.003],
] as const)('%s lies between the two published rates', (kind, benign, fixed) => {
  expect(WEIGHTS[kind].weight).toBeGreaterThanOrEqual(benign);
  expect(WEIGHTS[kind].weight).toBeLessThanOrEqual(fixed);
});
