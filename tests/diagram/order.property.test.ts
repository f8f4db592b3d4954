import { expect, test } from 'vitest';
import type { Network } from '../../src/circuit/index.ts';
import { itemOrder } from '../../src/diagram/index.ts';
import { circuit } from '../support/notation.ts';
import { property } from '../support/property.ts';
import { randomWiring } from './random-wiring.ts';

/** Sum over the gaps of an order of the square of the conductors that pass. */
function passing({ branches, nodes }: Network, order: readonly string[]): number {
  let sum = 0;
  for (let gap = 1; gap < order.length; gap++) {
    const above = new Set(order.slice(0, gap));
    const count = branches.filter(({ kind, from, to }) => {
      if (kind !== 'conductor') return false;
      const [a, b] = [nodes[from]!.item, nodes[to]!.item];
      return a !== undefined && b !== undefined && above.has(a) !== above.has(b);
    }).length;
    sum += count ** 2;
  }
  return sum;
}

function* orders(items: readonly string[]): Generator<string[]> {
  if (items.length === 0) yield [];
  for (const [i, first] of items.entries()) {
    for (const rest of orders(items.filter((_, j) => j !== i))) yield [first, ...rest];
  }
}

property('no order lets fewer conductors pass, by trying every one', 12, (from) => {
  const network = circuit(randomWiring(from, 6));
  const found = itemOrder(network);
  const [first, ...rest] = found;
  const least = Math.min(...[...orders(rest)].map((o) => passing(network, [first!, ...o])));
  expect(passing(network, found)).toBe(least);
});

test('a chain is drawn along the chain', () => {
  const network = circuit(`
    F1 mains: supply L N E
    A3 lamp: load L N { watts: 5 }
    A1 pole: contact L out { closed: shut }
    A2 pole: contact L out { closed: shut }
    W1: flex 0.75 1; BN F1.L A1.L
    W2: flex 0.75 1; BN A1.out A2.L
    W3: flex 0.75 1; BN A2.out A3.L
    mode rest:
  `);
  expect(itemOrder(network)).toEqual(['F1', 'A1', 'A2', 'A3']);
});
