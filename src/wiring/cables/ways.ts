import type { Branch, Network, Settled, Simulation } from '../../circuit/index.ts';
import { JOIN_OHMS, waysFrom } from '../reach.ts';

/** Branches passed from the supply to each node that is reached, nearest way. */
export type Ways = ReadonlyMap<number, readonly Branch[]>;

/** What the supply's line and neutral reach in one mode. */
export interface ModeWays {
  readonly mode: string;
  readonly settled: Settled;
  readonly lines: Ways;
  readonly neutrals: Ways;
}

/** The ways of line and neutral in every mode, through what is closed then. */
export function waysByMode({ network, modes }: Simulation): ModeWays[] {
  return [...modes].map(([mode, settled]) => {
    const closed = (_: Branch, i: number) => settled.solution.parts[i]!.ohms < JOIN_OHMS;
    return {
      mode,
      settled,
      lines: waysFromSupply(network, 'line', closed),
      neutrals: waysFromSupply(network, 'neutral', closed),
    };
  });
}

/** Ways of the line through everything that some mode closes. */
export function waysInAnyMode({ network, modes }: Simulation): Ways {
  const closed = new Set<number>();
  for (const { solution } of modes.values()) {
    solution.parts.forEach((part, i) => {
      if (part.ohms < JOIN_OHMS) closed.add(i);
    });
  }
  return waysFromSupply(network, 'line', (_, i) => closed.has(i));
}

/** Ways of the protective conductor: cores, wire links and joins inside devices. */
export const waysOfEarth = (network: Network): Ways =>
  waysFromSupply(
    network,
    'earth',
    (b) =>
      b.kind === 'conductor' ||
      b.kind === 'wire link' ||
      (b.kind === 'element' && b.element.kind === 'link'),
  );

function waysFromSupply(
  network: Network,
  part: 'line' | 'neutral' | 'earth',
  passes: (branch: Branch, index: number) => boolean,
): Ways {
  const start = network.branches.find((b) => b.kind === 'supply' && b.id.endsWith(part))?.from;
  return start === undefined
    ? new Map()
    : waysFrom(network, start, (b, i) => b.kind !== 'supply' && passes(b, i));
}
