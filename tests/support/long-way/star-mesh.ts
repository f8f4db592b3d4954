/**
 * Star-mesh elimination written step by step, with its own plan: what the engine's packed and
 * shared form of it is held to.
 */
import { REFERENCE } from '../../../src/circuit/index.ts';

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

/** Node voltages for one set of injected currents, by node. */
export interface Potentials {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** A network reduced for one state and frequency, ready for any injected currents. */
export interface Factor {
  readonly topology: Topology;
  /** Total admittance of each node when it was eliminated, by node, siemens. */
  readonly totalRe: Float64Array;
  readonly totalIm: Float64Array;
  /** Share of each neighbour in a node's total, then of the reference, from its step's `at` on. */
  readonly shareRe: Float64Array;
  readonly shareIm: Float64Array;
}

/**
 * Eliminates every node by the star-mesh transform.
 *
 * A node's total is summed from what joins it instead of being kept as a running diagonal,
 * so resistances are only ever added. A core that floats behind picosiemens of leakage keeps
 * full relative accuracy beside contacts of tens of siemens, where ordinary elimination loses
 * it to cancellation. Capacitance and inductance can still cancel each other in a sum, as
 * they do in nature.
 *
 * @param re,im admittance of each branch, siemens, in the order given to planElimination.
 * @throws RangeError when a node has no path to the reference.
 */
export function factorise(topology: Topology, re: Float64Array, im: Float64Array): Factor {
  const edgeRe = new Float64Array(topology.edges);
  const edgeIm = new Float64Array(topology.edges);
  const groundRe = new Float64Array(topology.nodes);
  const groundIm = new Float64Array(topology.nodes);
  const { place } = topology;
  for (let branch = 0; branch < place.length; branch++) {
    const edge = place[branch]!;
    if (edge >= 0) {
      edgeRe[edge]! += re[branch]!;
      edgeIm[edge]! += im[branch]!;
    } else {
      groundRe[-1 - edge]! += re[branch]!;
      groundIm[-1 - edge]! += im[branch]!;
    }
  }

  const totalRe = new Float64Array(topology.nodes);
  const totalIm = new Float64Array(topology.nodes);
  const shareRe = new Float64Array(topology.shares);
  const shareIm = new Float64Array(topology.shares);
  for (const { node, neighbours, edges, meshed, at } of topology.steps) {
    const count = edges.length;
    const fromGroundRe = groundRe[node]!;
    const fromGroundIm = groundIm[node]!;
    let sumRe = fromGroundRe;
    let sumIm = fromGroundIm;
    for (let i = 0; i < count; i++) {
      sumRe += edgeRe[edges[i]!]!;
      sumIm += edgeIm[edges[i]!]!;
    }
    const square = sumRe * sumRe + sumIm * sumIm;
    if (!(square > 0)) {
      throw new RangeError(
        `node ${node} has no path to the reference: give every node a leakage branch`,
      );
    }
    totalRe[node] = sumRe;
    totalIm[node] = sumIm;
    shareRe[at + count] = (fromGroundRe * sumRe + fromGroundIm * sumIm) / square;
    shareIm[at + count] = (fromGroundIm * sumRe - fromGroundRe * sumIm) / square;
    let pair = 0;
    for (let i = 0; i < count; i++) {
      const a = edgeRe[edges[i]!]!;
      const b = edgeIm[edges[i]!]!;
      const ownRe = (a * sumRe + b * sumIm) / square;
      const ownIm = (b * sumRe - a * sumIm) / square;
      shareRe[at + i] = ownRe;
      shareIm[at + i] = ownIm;
      const neighbour = neighbours[i]!;
      groundRe[neighbour]! += ownRe * fromGroundRe - ownIm * fromGroundIm;
      groundIm[neighbour]! += ownRe * fromGroundIm + ownIm * fromGroundRe;
      for (let j = i + 1; j < count; j++) {
        const otherRe = edgeRe[edges[j]!]!;
        const otherIm = edgeIm[edges[j]!]!;
        const mesh = meshed[pair++]!;
        edgeRe[mesh]! += ownRe * otherRe - ownIm * otherIm;
        edgeIm[mesh]! += ownRe * otherIm + ownIm * otherRe;
      }
    }
  }
  return { topology, totalRe, totalIm, shareRe, shareIm };
}

/**
 * Node voltages when the currents given flow into the nodes from the reference.
 * @param re,im injected currents by node, amperes; both arrays are used up.
 */
export function solveFor(factor: Factor, re: Float64Array, im: Float64Array): Potentials {
  const { topology, shareRe, shareIm } = factor;
  for (const { node, neighbours, at } of topology.steps) {
    const a = re[node]!;
    const b = im[node]!;
    if (a === 0 && b === 0) continue;
    for (let i = 0; i < neighbours.length; i++) {
      const neighbour = neighbours[i]!;
      re[neighbour]! += shareRe[at + i]! * a - shareIm[at + i]! * b;
      im[neighbour]! += shareRe[at + i]! * b + shareIm[at + i]! * a;
    }
  }
  return substituteBack(factor, re, im);
}

/**
 * Node voltages when sources lie in the branches: the current each branch drives on its own
 * into its `from` end, its admittance times its electromotive force.
 *
 * A source's current stays with its edge through the elimination instead of being put into
 * one end and taken out of the other. What an extra-low-voltage loop passes to earth is a
 * picoampere beside the amperes of its source; the two ends' currents would have to cancel
 * to the last digit for the loop's voltage to earth to come out.
 *
 * @param re,im source currents by branch, amperes, in the order given to planElimination.
 */
export function solveSources(factor: Factor, re: Float64Array, im: Float64Array): Potentials {
  const { topology, shareRe, shareIm } = factor;
  const edgeRe = new Float64Array(topology.edges);
  const edgeIm = new Float64Array(topology.edges);
  const groundRe = new Float64Array(topology.nodes);
  const groundIm = new Float64Array(topology.nodes);
  const { place, sense } = topology;
  let betweenNodes = false;
  for (let branch = 0; branch < place.length; branch++) {
    if (re[branch] === 0 && im[branch] === 0) continue;
    const edge = place[branch]!;
    const a = sense[branch]! * re[branch]!;
    const b = sense[branch]! * im[branch]!;
    if (edge >= 0) {
      betweenNodes = true;
      edgeRe[edge]! += a;
      edgeIm[edge]! += b;
    } else {
      groundRe[-1 - edge]! += a;
      groundIm[-1 - edge]! += b;
    }
  }
  // A source to the reference has but one end, as the supply's.
  if (!betweenNodes) return solveFor(factor, groundRe, groundIm);

  // Each node's total, put where its voltage will stand.
  const totalRe = new Float64Array(topology.nodes);
  const totalIm = new Float64Array(topology.nodes);
  for (const { node, neighbours, edges, meshed, at } of topology.steps) {
    const count = edges.length;
    const fromGroundRe = groundRe[node]!;
    const fromGroundIm = groundIm[node]!;
    let sumRe = fromGroundRe;
    let sumIm = fromGroundIm;
    let alongEdges = false;
    for (let i = 0; i < count; i++) {
      const edge = edges[i]!;
      if (edgeRe[edge] === 0 && edgeIm[edge] === 0) continue;
      alongEdges = true;
      // From here on positive into the node, as what comes from the reference is.
      if (node > neighbours[i]!) {
        edgeRe[edge] = -edgeRe[edge]!;
        edgeIm[edge] = -edgeIm[edge]!;
      }
      sumRe += edgeRe[edge]!;
      sumIm += edgeIm[edge]!;
    }
    totalRe[node] = sumRe;
    totalIm[node] = sumIm;
    if (!alongEdges && fromGroundRe === 0 && fromGroundIm === 0) continue;
    // Between two neighbours stays what one passes on less what the other does.
    const groundShareRe = shareRe[at + count]!;
    const groundShareIm = shareIm[at + count]!;
    let pair = 0;
    for (let i = 0; i < count; i++) {
      const neighbour = neighbours[i]!;
      const ownRe = shareRe[at + i]!;
      const ownIm = shareIm[at + i]!;
      const a = edgeRe[edges[i]!]!;
      const b = edgeIm[edges[i]!]!;
      groundRe[neighbour]! +=
        ownRe * fromGroundRe - ownIm * fromGroundIm - (groundShareRe * a - groundShareIm * b);
      groundIm[neighbour]! +=
        ownRe * fromGroundIm + ownIm * fromGroundRe - (groundShareRe * b + groundShareIm * a);
      if (!alongEdges) continue;
      for (let j = i + 1; j < count; j++) {
        const c = edgeRe[edges[j]!]!;
        const d = edgeIm[edges[j]!]!;
        const otherRe = shareRe[at + j]!;
        const otherIm = shareIm[at + j]!;
        const mesh = meshed[pair++]!;
        const into = neighbour < neighbours[j]! ? 1 : -1;
        edgeRe[mesh]! += into * (ownRe * c - ownIm * d - (otherRe * a - otherIm * b));
        edgeIm[mesh]! += into * (ownRe * d + ownIm * c - (otherRe * b + otherIm * a));
      }
    }
  }
  return substituteBack(factor, totalRe, totalIm);
}

/** Turns each node's total current at its elimination into its voltage, last node first. */
function substituteBack(factor: Factor, re: Float64Array, im: Float64Array): Potentials {
  const { topology, totalRe, totalIm, shareRe, shareIm } = factor;
  for (let s = topology.steps.length - 1; s >= 0; s--) {
    const { node, neighbours, at } = topology.steps[s]!;
    const a = totalRe[node]!;
    const b = totalIm[node]!;
    const square = a * a + b * b;
    let sumRe = (re[node]! * a + im[node]! * b) / square;
    let sumIm = (im[node]! * a - re[node]! * b) / square;
    for (let i = 0; i < neighbours.length; i++) {
      const neighbour = neighbours[i]!;
      sumRe += shareRe[at + i]! * re[neighbour]! - shareIm[at + i]! * im[neighbour]!;
      sumIm += shareRe[at + i]! * im[neighbour]! + shareIm[at + i]! * re[neighbour]!;
    }
    re[node] = sumRe;
    im[node] = sumIm;
  }
  return { re, im };
}
