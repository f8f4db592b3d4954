import type { Network } from '../circuit/index.ts';
import { type ItemPoints, itemOf, mateOf, pointsByItem } from './points.ts';
import { atItem, wayWords } from './spoken.ts';

/**
 * Two points worth laying an instrument on.
 * `line`: a line to its neutral; `line to earth` and `neutral to earth`: they tell a lost
 * neutral from a lost line; `across`: a switch or fuse, end to end; `call`: an
 * extra-low-voltage pair, read in volts DC; `call to earth`: where mains must never be;
 * `earth continuity`: an earth terminal to the earth of the supply, by a long lead to the earth
 * of a socket outlet.
 */
export type PairKind =
  | 'line'
  | 'line to earth'
  | 'neutral to earth'
  | 'across'
  | 'call'
  | 'call to earth'
  | 'earth continuity';

/** Two points worth testing between, at one item. */
export interface TestPair {
  /** `E1.call feed|E1.N`: stable, and the same for every system with that item. */
  readonly id: string;
  readonly item: string;
  readonly from: string;
  readonly to: string;
  readonly kind: PairKind;
  /** As a step says it: `live to stat to N`. */
  readonly title: string;
}

/** The earth of each item that needs one, to the earth of the supply: isolated, by a long lead. */
export function earthPairs(network: Network): TestPair[] {
  const supply = network.branches.find(({ kind, id }) => kind === 'supply' && id.endsWith('earth'));
  if (!supply) return [];
  const origin = network.nodes[supply.from]!.id;
  return pointsByItem(network).flatMap(({ item, earths: [earth] }) => {
    const { protection } = network.items.get(item)!.device;
    if (protection !== 'class I' || !earth || itemOf(origin) === item) return [];
    return [
      {
        ...pair(earth, origin, 'earth continuity'),
        title: 'earth terminal to the earth of a socket outlet',
      },
    ];
  });
}

/**
 * Every pair worth reading in a system, item by item. No pair reaches from one item to
 * another: nobody has leads that long.
 */
export function testPairs(network: Network): TestPair[] {
  return pointsByItem(network).flatMap((points) => {
    const pairs = [
      ...linePairs(points),
      ...neutralPairs(points),
      ...acrossPairs(network, points),
      ...callPairs(points),
    ];
    return pairs.filter((pair, i) => pairs.findIndex((p) => p.id === pair.id) === i);
  });
}

const pair = (from: string, to: string, kind: PairKind): TestPair => ({
  id: `${from}|${to}`,
  item: itemOf(from),
  from,
  to,
  kind,
  title: `${wayWords(from)} to ${wayWords(to)}`,
});

function linePairs({ lines, neutrals, earths }: ItemPoints): TestPair[] {
  return lines.flatMap((line) => {
    const neutral = mateOf(line, neutrals);
    const earth = mateOf(line, earths);
    return [
      ...(neutral ? [pair(line, neutral, 'line')] : []),
      ...(earth ? [pair(line, earth, 'line to earth')] : []),
    ];
  });
}

function neutralPairs({ neutrals, earths }: ItemPoints): TestPair[] {
  return neutrals.flatMap((neutral) => {
    const earth = mateOf(neutral, earths);
    return earth ? [pair(neutral, earth, 'neutral to earth')] : [];
  });
}

/** Switches and fuses whose both ends a probe reaches, alone or behind one internal node. */
function acrossPairs(network: Network, points: ItemPoints): TestPair[] {
  const reached = new Set([...points.lines, ...points.neutrals]);
  return network.branches.flatMap((branch) => {
    if (branch.kind !== 'element' || branch.item !== points.item) return [];
    if (!['contact', 'fuse', 'breaker'].includes(branch.element.kind)) return [];
    const from = network.nodes[branch.from]!.id;
    const to = network.nodes[branch.to]!.id;
    return reached.has(from) && reached.has(to) ? [pair(from, to, 'across')] : [];
  });
}

function callPairs({ calls, earths }: ItemPoints): TestPair[] {
  const [first, second] = calls;
  if (!first || !second) return [];
  return [
    pair(first, second, 'call'),
    ...(earths[0] ? calls.map((call) => pair(call, earths[0]!, 'call to earth' as const)) : []),
  ];
}

/** A pair in words with its item: `SL to N at the boiler E1`. */
export const testPairWords = (network: Network, { title, item, kind }: TestPair): string =>
  kind === 'earth continuity'
    ? `${title}, ${atItem(network, item)}`
    : `${title} ${atItem(network, item)}`;
