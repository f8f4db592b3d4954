/** Index that stands for the reference of potential in a branch's ends. */
export const REFERENCE = -1;

/** One node's elimination: which edges it gives up and which they turn into. */
interface Step {
  readonly node: number;
  /** Neighbours still present when the node goes. */
  readonly neighbours: Int32Array;
  /** Edge from the node to each neighbour. */
  readonly edges: Int32Array;
  /** Edge between each pair of neighbours, (0,1), (0,2) ... (1,2) ... */
  readonly meshed: Int32Array;
  /** Where its shares begin in a factor's: one a neighbour and one for the reference. */
  readonly at: number;
}

/** The order of elimination of a network's nodes, worked out once for all its states. */
export interface Topology {
  readonly nodes: number;
  readonly edges: number;
  readonly steps: readonly Step[];
  /** Length of a factor's shares. */
  readonly shares: number;
  /** Edge on which each branch lies; for a branch to the reference, −1 − node. */
  readonly place: Int32Array;
  /**
   * +1 where a branch's `from` is its node with the lower number, or its only node; else −1.
   * A current on an edge counts as positive into the node with the lower number.
   */
  readonly sense: Int8Array;
}

/**
 * Plans the elimination of every node, least-connected first.
 * @param nodes count of nodes, numbered from 0.
 * @param ends the two ends of each branch; REFERENCE for the reference of potential.
 * @throws RangeError when an end is no node or both ends are one.
 */
export function planElimination(
  nodes: number,
  ends: readonly (readonly [number, number])[],
): Topology {
  const adjacency: Map<number, number>[] = Array.from({ length: nodes }, () => new Map());
  let edges = 0;
  const join = (a: number, b: number): number => {
    const known = adjacency[a]!.get(b);
    if (known !== undefined) return known;
    adjacency[a]!.set(b, edges);
    adjacency[b]!.set(a, edges);
    return edges++;
  };
  const place = Int32Array.from(ends, ([a, b]) => {
    guard(a, b, nodes);
    if (a === REFERENCE) return -1 - b;
    if (b === REFERENCE) return -1 - a;
    return join(a, b);
  });
  const sense = Int8Array.from(ends, ([a, b]) =>
    b === REFERENCE || (a !== REFERENCE && a < b) ? 1 : -1,
  );

  const steps: Step[] = [];
  let shares = 0;
  const left = new Set(Array.from({ length: nodes }, (_, i) => i));
  while (left.size > 0) {
    const node = leastConnected(left, adjacency);
    left.delete(node);
    const around = [...adjacency[node]!];
    for (const [neighbour] of around) adjacency[neighbour]!.delete(node);
    const meshed: number[] = [];
    around.forEach(([a], i) => {
      for (const [b] of around.slice(i + 1)) meshed.push(join(a, b));
    });
    steps.push({
      node,
      neighbours: Int32Array.from(around, ([neighbour]) => neighbour),
      edges: Int32Array.from(around, ([, edge]) => edge),
      meshed: Int32Array.from(meshed),
      at: shares,
    });
    shares += around.length + 1;
  }
  return { nodes, edges, steps, shares, place, sense };
}

function leastConnected(left: Set<number>, adjacency: readonly Map<number, number>[]): number {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (const node of left) {
    const degree = adjacency[node]!.size;
    if (degree < least) {
      least = degree;
      best = node;
    }
  }
  return best;
}

function guard(a: number, b: number, nodes: number): void {
  const known = (n: number) => n === REFERENCE || (Number.isInteger(n) && n >= 0 && n < nodes);
  if (known(a) && known(b) && a !== b) return;
  throw new RangeError(
    `a branch needs two different ends among 0..${nodes - 1} or REFERENCE; got ${a} and ${b}`,
  );
}
