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
 * @param like the plan of a network from which this one was made by a change or two, its nodes in
 * the same places: its order is taken over, which is as good and quicker than looking for one.
 * @throws RangeError when an end is no node or both ends are one.
 */
export function planElimination(
  nodes: number,
  ends: readonly { readonly from: number; readonly to: number }[],
  like?: Topology,
): Topology {
  const key = new Int32Array(2 * ends.length);
  let hash = nodes;
  for (let i = 0; i < ends.length; i++) {
    const { from, to } = ends[i]!;
    key[2 * i] = from;
    key[2 * i + 1] = to;
    hash = (Math.imul(hash, 31) + from) | 0;
    hash = (Math.imul(hash, 31) + to) | 0;
  }
  const before = known.get(hash);
  if (before?.topology.nodes === nodes && isSame(before.ends, key))
    if (before.like === like || before.topology === like) return before.topology;
  const topology = planned(nodes, ends, like);
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(hash, { ends: key, topology, like });
  return topology;
}

/** Plans kept, some twenty kilobytes each: circuits that differ in values alone share theirs. */
const MOST_KNOWN = 512;

interface Plan {
  readonly ends: Int32Array;
  readonly like: Topology | undefined;
  readonly topology: Topology;
}

const known = new Map<number, Plan>();

function isSame(a: Int32Array, b: Int32Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

function planned(
  nodes: number,
  ends: readonly { readonly from: number; readonly to: number }[],
  like: Topology | undefined,
): Topology {
  for (const { from, to } of ends) guard(from, to, nodes);
  const order = like ? orderAs(like, nodes) : leastConnectedFirst(nodes, ends);
  const { step, first, other } = eliminate(order, ends);
  const edges = other.length;
  // Edge of two steps, the earlier times the count of nodes plus the later; only what this plan
  // has written is read.
  if (edgeBetween.length < nodes * nodes) edgeBetween = new Int32Array(nodes * nodes);
  const between = edgeBetween;
  let pairs = 0;
  for (let s = 0; s < nodes; s++) {
    const begin = first[s]!;
    const count = first[s + 1]! - begin;
    pairs += (count * (count - 1)) / 2;
    for (let edge = begin; edge < begin + count; edge++) between[s * nodes + other[edge]!] = edge;
  }
  const meshed = new Int32Array(pairs);
  let pair = 0;
  for (let s = 0; s < nodes; s++) {
    for (let i = first[s]!; i < first[s + 1]!; i++) {
      const row = other[i]! * nodes;
      for (let j = i + 1; j < first[s + 1]!; j++) meshed[pair++] = between[row + other[j]!]!;
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
  return { nodes, edges, order, step, first, other, meshed, slot, sense };
}

/** Room of `planned`, used again and again. */
let edgeBetween = new Int32Array(0);

/** Nodes in the lowest bits of each number of a row of bits. */
const BITS = 32;

/** The order of another plan, whatever came to its nodes first: ends that lie loose, joined to little. */
function orderAs(like: Topology, nodes: number): Int32Array {
  const order = new Int32Array(nodes);
  const added = nodes - like.nodes;
  for (let i = 0; i < added; i++) order[i] = like.nodes + i;
  order.set(like.order, added);
  return order;
}

/** Nodes in the order of how many others each is joined to when its turn comes, fewest first. */
function leastConnectedFirst(
  nodes: number,
  ends: readonly { readonly from: number; readonly to: number }[],
): Int32Array {
  // Which nodes each node is joined to: a row of bits a node.
  const width = Math.ceil(nodes / BITS);
  const joined = new Int32Array(nodes * width);
  for (const { from, to } of ends) {
    if (from === REFERENCE || to === REFERENCE) continue;
    joined[from * width + (to >> 5)]! |= 1 << (to & 31);
    joined[to * width + (from >> 5)]! |= 1 << (from & 31);
  }
  const degrees = new Int32Array(nodes);
  for (let node = 0; node < nodes; node++) degrees[node] = count(joined, node, width);
  const order = new Int32Array(nodes);
  for (let s = 0; s < nodes; s++) {
    let node = 0;
    for (let n = 1; n < nodes; n++) if (degrees[n]! < degrees[node]!) node = n;
    order[s] = node;
    degrees[node] = nodes;
    for (let w = 0; w < width; w++) {
      for (let bits = joined[node * width + w]!; bits !== 0; bits &= bits - 1) {
        const a = w * BITS + lowest(bits);
        for (let v = 0; v < width; v++) joined[a * width + v]! |= joined[node * width + v]!;
        joined[a * width + (a >> 5)]! &= ~(1 << (a & 31));
        joined[a * width + (node >> 5)]! &= ~(1 << (node & 31));
        degrees[a] = count(joined, a, width);
      }
    }
  }
  return order;
}

/** The edges that an order of elimination leaves to each step. */
function eliminate(
  order: Int32Array,
  ends: readonly { readonly from: number; readonly to: number }[],
): Pick<Topology, 'step' | 'first' | 'other'> {
  const nodes = order.length;
  const step = new Int32Array(nodes);
  for (let s = 0; s < nodes; s++) step[order[s]!] = s;
  // Which later steps each step's node is joined to: a row of bits a step.
  const width = Math.ceil(nodes / BITS);
  const later = new Int32Array(nodes * width);
  for (const { from, to } of ends) {
    if (from === REFERENCE || to === REFERENCE) continue;
    const [a, b] = [step[from]!, step[to]!];
    const [s, end] = a < b ? [a, b] : [b, a];
    later[s * width + (end >> 5)]! |= 1 << (end & 31);
  }
  const first = new Int32Array(nodes + 1);
  for (let s = 0; s < nodes; s++) {
    const row = s * width;
    first[s + 1] = first[s]! + count(later, s, width);
    // What it joins hangs on the first of them from now on, and from that on the next.
    let w = 0;
    while (w < width && later[row + w] === 0) w++;
    if (w === width) continue;
    const heir = w * BITS + lowest(later[row + w]!);
    for (let v = w; v < width; v++) later[heir * width + v]! |= later[row + v]!;
    later[heir * width + (heir >> 5)]! &= ~(1 << (heir & 31));
  }
  const other = new Int32Array(first[nodes]!);
  let edge = 0;
  for (let s = 0; s < nodes; s++)
    for (let w = 0; w < width; w++)
      for (let bits = later[s * width + w]!; bits !== 0; bits &= bits - 1)
        other[edge++] = w * BITS + lowest(bits);
  return { step, first, other };
}

/** Place of the lowest bit that is set. */
const lowest = (bits: number): number => 31 - Math.clz32(bits & -bits);

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
