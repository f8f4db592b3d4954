import { type Complex, complex } from './complex.ts';
import { REFERENCE, type Topology } from './topology.ts';

/** Node voltages to the reference, volts: pairs by node, re at 2n and im at 2n + 1. */
export type Potentials = Float64Array;

/**
 * A network reduced for one state and frequency, ready for any injected currents. Complex
 * numbers stand as pairs, re at 2k and im at 2k + 1.
 */
export interface Factor {
  readonly topology: Topology;
  /**
   * By slot: the share of the slot in the total of the step that gives it up. After the slots, by
   * step: one over the total admittance of the node when it goes, ohms.
   */
  readonly values: Float64Array;
}

/** Length of what `factorise` works in: a pair for each slot and for each step. */
export const factorLength = ({ edges, nodes }: Topology): number => 2 * (edges + 2 * nodes);

/** Numbers of branches summed by slot as pairs, in the length that `factorise` takes. */
export function gather(topology: Topology, re: Float64Array, im: Float64Array): Float64Array {
  const { slot } = topology;
  const slots = new Float64Array(factorLength(topology));
  for (let branch = 0; branch < slot.length; branch++) {
    const k = 2 * slot[branch]!;
    slots[k]! += re[branch]!;
    slots[k + 1]! += im[branch]!;
  }
  return slots;
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
 * @param slots admittances as `gather` sums them, siemens; becomes the factor's values.
 * @throws RangeError when a node has no path to the reference.
 */
export function factorise(topology: Topology, slots: Float64Array): Factor {
  const { nodes, edges, first, other, meshed } = topology;
  const inverses = 2 * (edges + nodes);
  let pair = 0;
  for (let s = 0; s < nodes; s++) {
    const end = first[s + 1]!;
    const ground = 2 * (edges + s);
    const fromGroundRe = slots[ground]!;
    const fromGroundIm = slots[ground + 1]!;
    let sumRe = fromGroundRe;
    let sumIm = fromGroundIm;
    for (let i = first[s]!; i < end; i++) {
      sumRe += slots[2 * i]!;
      sumIm += slots[2 * i + 1]!;
    }
    const square = sumRe * sumRe + sumIm * sumIm;
    if (!(square > 0)) {
      throw new RangeError(
        `node ${topology.order[s]} has no path to the reference: give every node a leakage branch`,
      );
    }
    slots[inverses + 2 * s] = sumRe / square;
    slots[inverses + 2 * s + 1] = -sumIm / square;
    slots[ground] = (fromGroundRe * sumRe + fromGroundIm * sumIm) / square;
    slots[ground + 1] = (fromGroundIm * sumRe - fromGroundRe * sumIm) / square;
    for (let i = first[s]!; i < end; i++) {
      const a = slots[2 * i]!;
      const b = slots[2 * i + 1]!;
      const ownRe = (a * sumRe + b * sumIm) / square;
      const ownIm = (b * sumRe - a * sumIm) / square;
      slots[2 * i] = ownRe;
      slots[2 * i + 1] = ownIm;
      const toGround = 2 * (edges + other[i]!);
      slots[toGround]! += ownRe * fromGroundRe - ownIm * fromGroundIm;
      slots[toGround + 1]! += ownRe * fromGroundIm + ownIm * fromGroundRe;
      for (let j = i + 1; j < end; j++) {
        const c = slots[2 * j]!;
        const d = slots[2 * j + 1]!;
        const mesh = 2 * meshed[pair++]!;
        slots[mesh]! += ownRe * c - ownIm * d;
        slots[mesh + 1]! += ownRe * d + ownIm * c;
      }
    }
  }
  return { topology, values: slots };
}

/**
 * Node voltages when the currents given flow into the nodes from the reference.
 * @param flows injected currents, amperes: pairs by step; used up.
 */
export function solveFor(factor: Factor, flows: Float64Array): Potentials {
  const { topology, values: shares } = factor;
  const { nodes, first, other } = topology;
  for (let s = 0; s < nodes; s++) {
    const a = flows[2 * s]!;
    const b = flows[2 * s + 1]!;
    if (a === 0 && b === 0) continue;
    for (let i = first[s]!; i < first[s + 1]!; i++) {
      const to = 2 * other[i]!;
      flows[to]! += shares[2 * i]! * a - shares[2 * i + 1]! * b;
      flows[to + 1]! += shares[2 * i]! * b + shares[2 * i + 1]! * a;
    }
  }
  return substituteBack(factor, flows);
}

/**
 * Node voltages when sources lie in the branches: the current each branch drives on its own
 * into the end of its slot eliminated first, its admittance times its electromotive force.
 *
 * A source's current stays with its edge through the elimination instead of being put into
 * one end and taken out of the other. What an extra-low-voltage loop passes to earth is a
 * picoampere beside the amperes of its source; the two ends' currents would have to cancel
 * to the last digit for the loop's voltage to earth to come out.
 *
 * @param flows source currents, amperes: pairs by slot; used up.
 */
export function solveSources(factor: Factor, flows: Float64Array): Potentials {
  const { topology, values: shares } = factor;
  const { nodes, edges, first, other, meshed } = topology;
  // Each node's total, put where its voltage will stand.
  const totals = new Float64Array(2 * nodes);
  let pair = 0;
  for (let s = 0; s < nodes; s++) {
    const begin = first[s]!;
    const end = first[s + 1]!;
    const ground = 2 * (edges + s);
    const fromGroundRe = flows[ground]!;
    const fromGroundIm = flows[ground + 1]!;
    let sumRe = fromGroundRe;
    let sumIm = fromGroundIm;
    for (let i = begin; i < end; i++) {
      sumRe += flows[2 * i]!;
      sumIm += flows[2 * i + 1]!;
    }
    totals[2 * s] = sumRe;
    totals[2 * s + 1] = sumIm;
    // Between two neighbours stays what one passes on less what the other does.
    const groundShareRe = shares[ground]!;
    const groundShareIm = shares[ground + 1]!;
    for (let i = begin; i < end; i++) {
      const ownRe = shares[2 * i]!;
      const ownIm = shares[2 * i + 1]!;
      const a = flows[2 * i]!;
      const b = flows[2 * i + 1]!;
      const toGround = 2 * (edges + other[i]!);
      flows[toGround]! +=
        ownRe * fromGroundRe - ownIm * fromGroundIm - (groundShareRe * a - groundShareIm * b);
      flows[toGround + 1]! +=
        ownRe * fromGroundIm + ownIm * fromGroundRe - (groundShareRe * b + groundShareIm * a);
      for (let j = i + 1; j < end; j++) {
        const c = flows[2 * j]!;
        const d = flows[2 * j + 1]!;
        const otherRe = shares[2 * j]!;
        const otherIm = shares[2 * j + 1]!;
        const mesh = 2 * meshed[pair++]!;
        flows[mesh]! += ownRe * c - ownIm * d - (otherRe * a - otherIm * b);
        flows[mesh + 1]! += ownRe * d + ownIm * c - (otherRe * b + otherIm * a);
      }
    }
  }
  return substituteBack(factor, totals);
}

/** Turns each step's total current into its node's voltage, last step first. */
function substituteBack({ topology, values }: Factor, totals: Float64Array): Potentials {
  const { nodes, edges, first, other, order } = topology;
  const inverses = 2 * (edges + nodes);
  const volts = new Float64Array(2 * nodes);
  for (let s = nodes - 1; s >= 0; s--) {
    const a = values[inverses + 2 * s]!;
    const b = values[inverses + 2 * s + 1]!;
    let sumRe = totals[2 * s]! * a - totals[2 * s + 1]! * b;
    let sumIm = totals[2 * s + 1]! * a + totals[2 * s]! * b;
    for (let i = first[s]!; i < first[s + 1]!; i++) {
      const t = 2 * order[other[i]!]!;
      sumRe += values[2 * i]! * volts[t]! - values[2 * i + 1]! * volts[t + 1]!;
      sumIm += values[2 * i]! * volts[t + 1]! + values[2 * i + 1]! * volts[t]!;
    }
    const node = 2 * order[s]!;
    volts[node] = sumRe;
    volts[node + 1] = sumIm;
  }
  return volts;
}

/**
 * Impedance seen between two nodes with every source at rest, ohms.
 *
 * One ampere goes in at `a` and out at `b`. Only the steps that pass some of it on count, each
 * with the square of what reaches it over its total: a common leakage to earth, however large,
 * is never subtracted, and where the two ends' currents meet they cancel before they are squared.
 */
export function impedance({ topology, values }: Factor, a: number, b: number): Complex {
  const { nodes, edges, first, other, step } = topology;
  const inverses = 2 * (edges + nodes);
  if (flowing.length < 2 * nodes) flowing = new Float64Array(2 * nodes);
  const flows = flowing;
  let there = a === REFERENCE ? nodes : step[a]!;
  let back = b === REFERENCE ? nodes : step[b]!;
  if (there === back) return complex(0);
  if (there < nodes) flows[2 * there] = 1;
  if (back < nodes) flows[2 * back] = -1;
  let re = 0;
  let im = 0;
  while (there < nodes || back < nodes) {
    const s = Math.min(there, back);
    const x = flows[2 * s]!;
    const y = flows[2 * s + 1]!;
    flows[2 * s] = 0;
    flows[2 * s + 1] = 0;
    const begin = first[s]!;
    const end = first[s + 1]!;
    for (let i = begin; i < end; i++) {
      const to = 2 * other[i]!;
      flows[to]! += values[2 * i]! * x - values[2 * i + 1]! * y;
      flows[to + 1]! += values[2 * i]! * y + values[2 * i + 1]! * x;
    }
    const squareRe = x * x - y * y;
    const squareIm = 2 * x * y;
    re += squareRe * values[inverses + 2 * s]! - squareIm * values[inverses + 2 * s + 1]!;
    im += squareIm * values[inverses + 2 * s]! + squareRe * values[inverses + 2 * s + 1]!;
    // What a step passes on reaches the first of its neighbours to go, and through it the rest.
    const next = begin < end ? other[begin]! : nodes;
    if (there === s) there = next;
    if (back === s) back = next;
  }
  return complex(re, im);
}

/** Currents on their way through the steps of `impedance`; all zero between two calls. */
let flowing = new Float64Array(0);
