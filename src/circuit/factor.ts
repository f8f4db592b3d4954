import { type Complex, complex } from './complex.ts';
import { REFERENCE, type Topology } from './topology.ts';

/** Node voltages for one set of injected currents, by node. */
export interface Potentials {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/**
 * A network reduced for one state and frequency, ready for any injected currents. Complex
 * numbers stand as pairs, re at 2k and im at 2k + 1.
 */
export interface Factor {
  readonly topology: Topology;
  /** By slot: the share of the slot in the total of the step that gives it up. */
  readonly shares: Float64Array;
  /** By step: one over the total admittance of the node when it goes, ohms. */
  readonly inverses: Float64Array;
}

/** Admittances of branches, siemens, summed by slot as pairs. */
export function gather(topology: Topology, re: Float64Array, im: Float64Array): Float64Array {
  const { slot, edges, nodes } = topology;
  const slots = new Float64Array(2 * (edges + nodes));
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
 * @param slots admittances as `gather` sums them; used up.
 * @throws RangeError when a node has no path to the reference.
 */
export function factorise(topology: Topology, slots: Float64Array): Factor {
  const { nodes, edges, first, other, meshed } = topology;
  const inverses = new Float64Array(2 * nodes);
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
    const inverseRe = sumRe / square;
    const inverseIm = -sumIm / square;
    inverses[2 * s] = inverseRe;
    inverses[2 * s + 1] = inverseIm;
    slots[ground] = fromGroundRe * inverseRe - fromGroundIm * inverseIm;
    slots[ground + 1] = fromGroundIm * inverseRe + fromGroundRe * inverseIm;
    for (let i = first[s]!; i < end; i++) {
      const a = slots[2 * i]!;
      const b = slots[2 * i + 1]!;
      const ownRe = a * inverseRe - b * inverseIm;
      const ownIm = b * inverseRe + a * inverseIm;
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
  return { topology, shares: slots, inverses };
}

/**
 * Node voltages when the currents given flow into the nodes from the reference.
 * @param flows injected currents, amperes: pairs by step; used up.
 */
export function solveFor(factor: Factor, flows: Float64Array): Potentials {
  const { topology, shares } = factor;
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
  const { topology, shares } = factor;
  const { nodes, edges, first, other, meshed } = topology;
  // A source to the reference has but one end, as the supply's.
  if (isZero(flows, 2 * edges)) return solveFor(factor, flows.slice(2 * edges));

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

function isZero(values: Float64Array, end: number): boolean {
  for (let k = 0; k < end; k++) if (values[k] !== 0) return false;
  return true;
}

/** Turns each step's total current into its node's voltage, last step first. */
function substituteBack({ topology, shares, inverses }: Factor, totals: Float64Array): Potentials {
  const { nodes, first, other, order } = topology;
  const re = new Float64Array(nodes);
  const im = new Float64Array(nodes);
  for (let s = nodes - 1; s >= 0; s--) {
    const a = inverses[2 * s]!;
    const b = inverses[2 * s + 1]!;
    let sumRe = totals[2 * s]! * a - totals[2 * s + 1]! * b;
    let sumIm = totals[2 * s + 1]! * a + totals[2 * s]! * b;
    for (let i = first[s]!; i < first[s + 1]!; i++) {
      const t = 2 * other[i]!;
      sumRe += shares[2 * i]! * totals[t]! - shares[2 * i + 1]! * totals[t + 1]!;
      sumIm += shares[2 * i]! * totals[t + 1]! + shares[2 * i + 1]! * totals[t]!;
    }
    totals[2 * s] = sumRe;
    totals[2 * s + 1] = sumIm;
    re[order[s]!] = sumRe;
    im[order[s]!] = sumIm;
  }
  return { re, im };
}

/**
 * Impedance seen between two nodes with every source at rest, ohms.
 *
 * One ampere goes in at `a` and out at `b`. Only the steps that pass some of it on count, each
 * with the square of what reaches it over its total: a common leakage to earth, however large,
 * is never subtracted, and where the two ends' currents meet they cancel before they are squared.
 */
export function impedance({ topology, shares, inverses }: Factor, a: number, b: number): Complex {
  const { nodes, first, other, step } = topology;
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
    const s = there < back ? there : back;
    const x = flows[2 * s]!;
    const y = flows[2 * s + 1]!;
    flows[2 * s] = 0;
    flows[2 * s + 1] = 0;
    const begin = first[s]!;
    const end = first[s + 1]!;
    for (let i = begin; i < end; i++) {
      const to = 2 * other[i]!;
      flows[to]! += shares[2 * i]! * x - shares[2 * i + 1]! * y;
      flows[to + 1]! += shares[2 * i]! * y + shares[2 * i + 1]! * x;
    }
    const squareRe = x * x - y * y;
    const squareIm = 2 * x * y;
    re += squareRe * inverses[2 * s]! - squareIm * inverses[2 * s + 1]!;
    im += squareIm * inverses[2 * s]! + squareRe * inverses[2 * s + 1]!;
    // What a step passes on reaches the first of its neighbours to go, and through it the rest.
    const next = begin < end ? other[begin]! : nodes;
    if (there === s) there = next;
    if (back === s) back = next;
  }
  return complex(re, im);
}

/** Currents on their way through the steps of `impedance`; all zero between two calls. */
let flowing = new Float64Array(0);
