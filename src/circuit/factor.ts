import { type Complex, complex } from './complex.ts';
import type { Topology } from './topology.ts';

/** Node voltages for one set of injected currents, by node. */
export interface Potentials {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** A network reduced for one state and frequency, ready for any injected currents. */
export interface Factor {
  readonly topology: Topology;
  /** Total admittance of each node when it was eliminated, by step. */
  readonly pivots: readonly Complex[];
  /** Share of each neighbour in the node's total, by step, re and im in turn. */
  readonly shares: readonly Float64Array[];
}

/**
 * Eliminates every node by the star-mesh transform.
 *
 * A node's total is summed from what joins it instead of being kept as a running
 * diagonal, so nothing is subtracted. A core that floats behind picosiemens of
 * capacitance keeps full relative accuracy beside contacts of tens of siemens, where
 * ordinary elimination loses it to cancellation.
 *
 * @param re,im admittance of each branch, siemens, in the order given to planElimination.
 * @throws RangeError when a node has no path to the reference.
 */
export function factorise(topology: Topology, re: Float64Array, im: Float64Array): Factor {
  const edgeRe = new Float64Array(topology.edges);
  const edgeIm = new Float64Array(topology.edges);
  const groundRe = new Float64Array(topology.nodes);
  const groundIm = new Float64Array(topology.nodes);
  topology.place.forEach((place, branch) => {
    if (place >= 0) {
      edgeRe[place]! += re[branch]!;
      edgeIm[place]! += im[branch]!;
    } else {
      groundRe[-1 - place]! += re[branch]!;
      groundIm[-1 - place]! += im[branch]!;
    }
  });

  const pivots: Complex[] = [];
  const shares: Float64Array[] = [];
  for (const { node, neighbours, edges, meshed } of topology.steps) {
    let sumRe = groundRe[node]!;
    let sumIm = groundIm[node]!;
    for (const edge of edges) {
      sumRe += edgeRe[edge]!;
      sumIm += edgeIm[edge]!;
    }
    const square = sumRe * sumRe + sumIm * sumIm;
    if (!(square > 0)) {
      throw new RangeError(
        `node ${node} has no path to the reference: give every node a leakage branch`,
      );
    }
    const share = new Float64Array(2 * edges.length);
    edges.forEach((edge, i) => {
      const a = edgeRe[edge]!;
      const b = edgeIm[edge]!;
      share[2 * i] = (a * sumRe + b * sumIm) / square;
      share[2 * i + 1] = (b * sumRe - a * sumIm) / square;
    });
    let pair = 0;
    for (let i = 0; i < edges.length; i++) {
      const shareRe = share[2 * i]!;
      const shareIm = share[2 * i + 1]!;
      const neighbour = neighbours[i]!;
      groundRe[neighbour]! += shareRe * groundRe[node]! - shareIm * groundIm[node]!;
      groundIm[neighbour]! += shareRe * groundIm[node]! + shareIm * groundRe[node]!;
      for (let j = i + 1; j < edges.length; j++) {
        const edge = edges[j]!;
        const mesh = meshed[pair++]!;
        edgeRe[mesh]! += shareRe * edgeRe[edge]! - shareIm * edgeIm[edge]!;
        edgeIm[mesh]! += shareRe * edgeIm[edge]! + shareIm * edgeRe[edge]!;
      }
    }
    pivots.push(complex(sumRe, sumIm));
    shares.push(share);
  }
  return { topology, pivots, shares };
}

/**
 * Node voltages when the currents given flow into the nodes from the reference.
 * @param re,im injected currents by node, amperes; both arrays are used up.
 */
export function solveFor(factor: Factor, re: Float64Array, im: Float64Array): Potentials {
  const { steps } = factor.topology;
  for (let s = 0; s < steps.length; s++) {
    const { node, neighbours } = steps[s]!;
    const share = factor.shares[s]!;
    const a = re[node]!;
    const b = im[node]!;
    if (a === 0 && b === 0) continue;
    for (let i = 0; i < neighbours.length; i++) {
      const neighbour = neighbours[i]!;
      re[neighbour]! += share[2 * i]! * a - share[2 * i + 1]! * b;
      im[neighbour]! += share[2 * i]! * b + share[2 * i + 1]! * a;
    }
  }
  for (let s = steps.length - 1; s >= 0; s--) {
    const { node, neighbours } = steps[s]!;
    const share = factor.shares[s]!;
    const pivot = factor.pivots[s]!;
    const square = pivot.re * pivot.re + pivot.im * pivot.im;
    let sumRe = (re[node]! * pivot.re + im[node]! * pivot.im) / square;
    let sumIm = (im[node]! * pivot.re - re[node]! * pivot.im) / square;
    for (let i = 0; i < neighbours.length; i++) {
      const neighbour = neighbours[i]!;
      sumRe += share[2 * i]! * re[neighbour]! - share[2 * i + 1]! * im[neighbour]!;
      sumIm += share[2 * i]! * im[neighbour]! + share[2 * i + 1]! * re[neighbour]!;
    }
    re[node] = sumRe;
    im[node] = sumIm;
  }
  return { re, im };
}
