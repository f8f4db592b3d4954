import type { Network } from '../circuit/index.ts';

/** One item's terminals that a conductor or link reaches, by what they carry. */
export interface ItemPoints {
  readonly item: string;
  readonly lines: readonly string[];
  readonly neutrals: readonly string[];
  readonly earths: readonly string[];
  /** Terminals of an extra-low-voltage call or bus. */
  readonly calls: readonly string[];
}

/** Points of every item that has a connected terminal, in the system's order of items. */
export function pointsByItem(network: Network): ItemPoints[] {
  const reached = reachedNodes(network);
  return [...network.items.keys()].flatMap((item) => {
    const own = network.nodes.filter((n) => n.item === item && n.terminal && reached.has(n.index));
    if (own.length === 0) return [];
    const pick = (test: (carries: string, voltage: string) => boolean) =>
      own.filter((n) => test(n.terminal!.carries, n.terminal!.voltage)).map((n) => n.id);
    const calls = pick((carries, voltage) => carries === 'call' || voltage === 'extra-low');
    const mains = (test: (carries: string) => boolean) =>
      pick((carries) => test(carries)).filter((id) => !calls.includes(id));
    return [
      {
        item,
        lines: mains((carries) => carries === 'line' || carries === 'switched'),
        neutrals: mains((carries) => carries === 'neutral'),
        earths: mains((carries) => carries === 'earth'),
        calls,
      },
    ];
  });
}

function reachedNodes(network: Network): Set<number> {
  const reached = new Set<number>();
  for (const branch of network.branches) {
    if (branch.kind !== 'conductor' && branch.kind !== 'wire link') continue;
    reached.add(branch.from);
    reached.add(branch.to);
  }
  return reached;
}

/**
 * The terminal of the same kind that belongs with a point: `load N` with `load L`. Where an
 * item has several, the one that shares the most leading words; ties go to the first.
 */
export function mateOf(point: string, candidates: readonly string[]): string | undefined {
  const words = nameOf(point).split(' ');
  let best: string | undefined;
  let most = -1;
  for (const candidate of candidates) {
    const other = nameOf(candidate).split(' ');
    let shared = 0;
    while (shared < words.length && words[shared] === other[shared]) shared++;
    if (shared > most) {
      most = shared;
      best = candidate;
    }
  }
  return best;
}

/** `call feed` of `E1.call feed`. */
export const nameOf = (point: string): string => point.slice(point.indexOf('.') + 1);
/** `E1` of `E1.call feed`. */
export const itemOf = (point: string): string => point.slice(0, point.indexOf('.'));
