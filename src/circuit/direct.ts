/**
 * What `factor.ts` does, for direct current: every number is real, and there is a quarter of the
 * work to do.
 */
import type { Potentials } from './factor.ts';
import { REFERENCE, type Topology } from './topology.ts';

/** A network reduced for one state and direct current. */
export interface DirectFactor {
  readonly topology: Topology;
  /**
   * By slot: the share of the slot in the total of the step that gives it up. After the slots, by
   * step: one over the total conductance of the node when it goes, ohms.
   */
  readonly values: Float64Array;
}

/** Length of what `factoriseDirect` works in: a number for each slot and for each step. */
export const directLength = ({ edges, nodes }: Topology): number => edges + 2 * nodes;

/**
 * Eliminates every node by the star-mesh transform, see `factorise`.
 * @param slots conductances by slot, siemens, of `directLength`; becomes the factor's values.
 * @throws RangeError when a node has no path to the reference.
 */
export function factoriseDirect(topology: Topology, slots: Float64Array): DirectFactor {
  const { nodes, edges, first, other, meshed } = topology;
  const inverses = edges + nodes;
  let pair = 0;
  for (let s = 0; s < nodes; s++) {
    const end = first[s + 1]!;
    const fromGround = slots[edges + s]!;
    let sum = fromGround;
    for (let i = first[s]!; i < end; i++) sum += slots[i]!;
    if (!(sum > 0)) {
      throw new RangeError(
        `node ${topology.order[s]} has no path to the reference: give every node a leakage branch`,
      );
    }
    slots[inverses + s] = 1 / sum;
    slots[edges + s] = fromGround / sum;
    for (let i = first[s]!; i < end; i++) {
      const own = slots[i]! / sum;
      slots[i] = own;
      slots[edges + other[i]!]! += own * fromGround;
      for (let j = i + 1; j < end; j++) slots[meshed[pair++]!]! += own * slots[j]!;
    }
  }
  return { topology, values: slots };
}

/**
 * Node voltages when sources lie in the branches, see `solveSources`.
 * @param flows source currents by slot, amperes; used up.
 * @returns pairs, as those of alternating current; all im are zero.
 */
export function solveDirect(factor: DirectFactor, flows: Float64Array): Potentials {
  const { topology, values: shares } = factor;
  const { nodes, edges, first, other, meshed, order } = topology;
  const inverses = edges + nodes;
  // Each node's total, where its voltage will stand.
  const volts = new Float64Array(2 * nodes);
  let pair = 0;
  for (let s = 0; s < nodes; s++) {
    const begin = first[s]!;
    const end = first[s + 1]!;
    const fromGround = flows[edges + s]!;
    let sum = fromGround;
    for (let i = begin; i < end; i++) sum += flows[i]!;
    volts[2 * order[s]!] = sum;
    const groundShare = shares[edges + s]!;
    for (let i = begin; i < end; i++) {
      const own = shares[i]!;
      const a = flows[i]!;
      flows[edges + other[i]!]! += own * fromGround - groundShare * a;
      for (let j = i + 1; j < end; j++) {
        flows[meshed[pair++]!]! += own * flows[j]! - shares[j]! * a;
      }
    }
  }
  for (let s = nodes - 1; s >= 0; s--) {
    const node = 2 * order[s]!;
    let sum = volts[node]! * shares[inverses + s]!;
    for (let i = first[s]!; i < first[s + 1]!; i++) {
      sum += shares[i]! * volts[2 * order[other[i]!]!]!;
    }
    volts[node] = sum;
  }
  return volts;
}

/** Resistance between two nodes with every source at rest, ohms; see `impedance`. */
export function resistance({ topology, values }: DirectFactor, a: number, b: number): number {
  const { nodes, edges, first, other, step } = topology;
  const inverses = edges + nodes;
  if (flowing.length < nodes) flowing = new Float64Array(nodes);
  const flows = flowing;
  let there = a === REFERENCE ? nodes : step[a]!;
  let back = b === REFERENCE ? nodes : step[b]!;
  if (there === back) return 0;
  if (there < nodes) flows[there] = 1;
  if (back < nodes) flows[back] = -1;
  let ohms = 0;
  while (there < nodes || back < nodes) {
    const s = Math.min(there, back);
    const x = flows[s]!;
    flows[s] = 0;
    const begin = first[s]!;
    const end = first[s + 1]!;
    for (let i = begin; i < end; i++) flows[other[i]!]! += values[i]! * x;
    ohms += x * x * values[inverses + s]!;
    const next = begin < end ? other[begin]! : nodes;
    if (there === s) there = next;
    if (back === s) back = next;
  }
  return ohms;
}

/** Currents on their way through the steps of `resistance`; all zero between two calls. */
let flowing = new Float64Array(0);
