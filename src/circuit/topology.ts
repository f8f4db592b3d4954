/** Index that stands for the reference of potential in a branch's ends. */
export const REFERENCE = -1;

/**
 * The order in which a network's nodes are eliminated, worked out once for all its states.
 *
 * Step `s` eliminates node `order[s]`. Between two nodes lies at most one *edge*, that gives
 * its admittance up at the step of whichever end goes first; edges are numbered by it, those of
 * step `s` from `first[s]` up to, not with, `first[s + 1]`. A *slot* is an edge, or, from
 * `edges` on, the way from a step's node to the reference.
 */
export interface Topology {
  readonly nodes: number;
  readonly edges: number;
  /** Node that each step eliminates, and the step that eliminates each node. */
  readonly order: Int32Array;
  readonly step: Int32Array;
  /** Where the edges of each step begin; one more than there are steps. */
  readonly first: Int32Array;
  /** Step of each edge's other end, ascending within a step. */
  readonly other: Int32Array;
  /** Step by step, the edge between each pair of its edges' other ends: (0,1), (0,2) ... (1,2) ... */
  readonly meshed: Int32Array;
  /** Slot of each branch. */
  readonly slot: Int32Array;
  /**
   * +1 where a branch's `from` is the end eliminated first, or its only node; else −1. A current
   * in a slot counts as positive into the node eliminated first.
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
  ends: readonly { readonly from: number; readonly to: number }[],
): Topology {
  const { order, around } = eliminate(nodes, ends);
  const step = new Int32Array(nodes);
  for (let s = 0; s < nodes; s++) step[order[s]!] = s;
  const first = new Int32Array(nodes + 1);
  for (let s = 0; s < nodes; s++) first[s + 1] = first[s]! + around[s]!.length;
  const edges = first[nodes]!;
  const other = new Int32Array(edges);
  // Edge of two steps, the earlier times the count of nodes plus the later.
  const between = new Int32Array(nodes * nodes);
  for (let s = 0; s < nodes; s++) {
    const later = around[s]!.map((node) => step[node]!).sort((a, b) => a - b);
    let edge = first[s]!;
    for (const t of later) {
      other[edge] = t;
      between[s * nodes + t] = edge++;
    }
  }
  const meshed: number[] = [];
  for (let s = 0; s < nodes; s++) {
    for (let i = first[s]!; i < first[s + 1]!; i++) {
      for (let j = i + 1; j < first[s + 1]!; j++) {
        meshed.push(between[other[i]! * nodes + other[j]!]!);
      }
    }
  }

  const slot = new Int32Array(ends.length);
  const sense = new Int8Array(ends.length);
  for (let i = 0; i < ends.length; i++) {
    const { from, to } = ends[i]!;
    const a = from === REFERENCE ? nodes : step[from]!;
    const b = to === REFERENCE ? nodes : step[to]!;
    const earlier = Math.min(a, b);
    const later = Math.max(a, b);
    slot[i] = later === nodes ? edges + earlier : between[earlier * nodes + later]!;
    sense[i] = a < b ? 1 : -1;
  }
  return { nodes, edges, order, step, first, other, meshed: Int32Array.from(meshed), slot, sense };
}

/** Nodes in the lowest bits of each number of a row of bits. */
const BITS = 32;

/** The order, and by step the nodes still there that the step's node is then joined to. */
function eliminate(
  nodes: number,
  ends: readonly { readonly from: number; readonly to: number }[],
): { order: Int32Array; around: number[][] } {
  // Which nodes each node is joined to: a row of bits a node.
  const width = Math.ceil(nodes / BITS);
  const joined = new Int32Array(nodes * width);
  const join = (a: number, b: number) => {
    joined[a * width + (b >> 5)]! |= 1 << (b & 31);
  };
  for (const { from, to } of ends) {
    guard(from, to, nodes);
    if (from === REFERENCE || to === REFERENCE) continue;
    join(from, to);
    join(to, from);
  }
  const degrees = Int32Array.from({ length: nodes }, (_, node) => count(joined, node, width));
  const order = new Int32Array(nodes);
  const around: number[][] = [];
  for (let s = 0; s < nodes; s++) {
    let node = 0;
    let least = Number.POSITIVE_INFINITY;
    for (let n = 0; n < nodes; n++) {
      if (degrees[n]! < least) {
        least = degrees[n]!;
        node = n;
      }
    }
    order[s] = node;
    degrees[node] = nodes + 1;
    const left: number[] = [];
    for (let w = 0; w < width; w++) {
      for (let bits = joined[node * width + w]!; bits !== 0; bits &= bits - 1) {
        left.push(w * BITS + 31 - Math.clz32(bits & -bits));
      }
    }
    around.push(left);
    for (const a of left) {
      for (let w = 0; w < width; w++) joined[a * width + w]! |= joined[node * width + w]!;
      joined[a * width + (a >> 5)]! &= ~(1 << (a & 31));
      joined[a * width + (node >> 5)]! &= ~(1 << (node & 31));
      degrees[a] = count(joined, a, width);
    }
  }
  return { order, around };
}

/** How many bits of a node's row are set. */
function count(joined: Int32Array, node: number, width: number): number {
  let sum = 0;
  for (let w = 0; w < width; w++) {
    let bits = joined[node * width + w]!;
    bits -= (bits >>> 1) & 0x55555555;
    bits = (bits & 0x33333333) + ((bits >>> 2) & 0x33333333);
    sum += Math.imul((bits + (bits >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
  }
  return sum;
}

function guard(a: number, b: number, nodes: number): void {
  const known = (n: number) => n === REFERENCE || (Number.isInteger(n) && n >= 0 && n < nodes);
  if (known(a) && known(b) && a !== b) return;
  throw new RangeError(
    `a branch needs two different ends among 0..${nodes - 1} or REFERENCE; got ${a} and ${b}`,
  );
}
