import { SUPPLY_HERTZ } from '../published/index.ts';
import { type Complex, complex, multiply, subtract } from './complex.ts';
import { type Factor, factorise, type Potentials, solveFor, solveSources } from './factor.ts';
import { admittance, changesWithState, type Parts, partsOf } from './impedance.ts';
import type { Network } from './network.ts';
import type { State } from './state.ts';
import { REFERENCE } from './topology.ts';

/** A network solved in one state: at the supply frequency and for direct current. */
export interface Solution {
  readonly network: Network;
  readonly parts: readonly Parts[];
  readonly ac: Spectrum;
  readonly dc: Spectrum;
}

/** The solution at one frequency; reduced only when first asked for. */
export interface Spectrum {
  readonly hertz: number;
  readonly factor: () => Factor;
  /** Node voltages to the supply's star point; null when no source acts at this frequency. */
  readonly potentials: () => Potentials | null;
}

/** Solves a network in a state at the supply frequency and for direct current. */
export function solve(network: Network, state: State): Solution {
  const constants = constantsOf(network, state);
  const parts = constants.parts.slice();
  for (const i of constants.changing) {
    parts[i] = partsOf(network.branches[i]!, state, SUPPLY_HERTZ);
  }
  return {
    network,
    parts,
    ac: spectrum(network, constants, parts, SUPPLY_HERTZ, 'ac'),
    dc: spectrum(network, constants, parts, 0, 'dc'),
  };
}

/** What is the same in every state of a network, worked out once for all of them. */
interface Constants {
  /** Indexes of the branches that a state changes. */
  readonly changing: readonly number[];
  /** Indexes of the branches that may hold a source. */
  readonly sources: readonly number[];
  /** Every branch's parts in one state or another. */
  readonly parts: readonly Parts[];
  /** Their admittances by frequency, re and im by branch. */
  readonly admittances: Map<number, readonly [re: Float64Array, im: Float64Array]>;
}

const known = new WeakMap<Network, Constants>();

function constantsOf(network: Network, state: State): Constants {
  const before = known.get(network);
  if (before) return before;
  const { branches } = network;
  const parts = branches.map((branch) => partsOf(branch, state, SUPPLY_HERTZ));
  const indexes = [...branches.keys()];
  const constants: Constants = {
    changing: indexes.filter((i) => changesWithState(branches[i]!)),
    sources: indexes.filter((i) => parts[i]!.current !== 'none'),
    parts,
    admittances: new Map(),
  };
  known.set(network, constants);
  return constants;
}

/** Every branch's admittance, those that a state changes as in the state the network was met in. */
function admittancesOf(constants: Constants, hertz: number): readonly [Float64Array, Float64Array] {
  const before = constants.admittances.get(hertz);
  if (before) return before;
  const all = constants.parts.map((part) => admittance(part, hertz));
  const made = [
    Float64Array.from(all, ({ re }) => re),
    Float64Array.from(all, ({ im }) => im),
  ] as const;
  constants.admittances.set(hertz, made);
  return made;
}

function spectrum(
  network: Network,
  constants: Constants,
  parts: readonly Parts[],
  hertz: number,
  current: 'ac' | 'dc',
): Spectrum {
  const factor = once(() => {
    const [unchangedRe, unchangedIm] = admittancesOf(constants, hertz);
    const re = unchangedRe.slice();
    const im = unchangedIm.slice();
    for (const i of constants.changing) {
      const y = admittance(parts[i]!, hertz);
      re[i] = y.re;
      im[i] = y.im;
    }
    return factorise(network.topology, re, im);
  });
  const potentials = once(() => {
    const acting = constants.sources.filter(
      (i) => parts[i]!.current === current && parts[i]!.volts !== 0,
    );
    if (acting.length === 0) return null;
    const re = new Float64Array(parts.length);
    const im = new Float64Array(parts.length);
    for (const i of acting) {
      const flow = multiply(admittance(parts[i]!, hertz), complex(parts[i]!.volts));
      re[i] = flow.re;
      im[i] = flow.im;
    }
    return solveSources(factor(), re, im);
  });
  return { hertz, factor, potentials };
}

function once<T>(make: () => T): () => T {
  let made: { value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** Potential of a node to the supply's star point, volts; zero where no source drives one. */
export function potential(spectrum: Spectrum, node: number): Complex {
  const solved = spectrum.potentials();
  if (node === REFERENCE || solved === null) return complex(0);
  return complex(solved.re[node]!, solved.im[node]!);
}

/** Voltage between two nodes, `a` to `b`, volts. */
export function voltage(spectrum: Spectrum, a: number, b: number): Complex {
  return subtract(potential(spectrum, a), potential(spectrum, b));
}

/** Current through a branch from `from` to `to`, amperes, at one frequency. */
export function branchCurrent(solution: Solution, branch: number, kind: 'ac' | 'dc'): Complex {
  const { from, to } = solution.network.branches[branch]!;
  const part = solution.parts[branch]!;
  const spectrum = solution[kind];
  const drop = voltage(spectrum, from, to);
  const source = part.current === kind ? part.volts : 0;
  return multiply(admittance(part, spectrum.hertz), complex(drop.re - source, drop.im));
}

/** Effective (RMS) voltage across a branch, alternating and direct together, volts. */
export function effectiveVolts(solution: Solution, branch: number): number {
  const { from, to } = solution.network.branches[branch]!;
  const ac = voltage(solution.ac, from, to);
  const dc = voltage(solution.dc, from, to);
  return Math.hypot(ac.re, ac.im, dc.re);
}

/** Effective (RMS) current through a branch, alternating and direct together, amperes. */
export function effectiveAmps(solution: Solution, branch: number): number {
  const ac = branchCurrent(solution, branch, 'ac');
  const dc = branchCurrent(solution, branch, 'dc');
  return Math.hypot(ac.re, ac.im, dc.re);
}

/**
 * Impedance seen between two nodes with every source at rest, ohms.
 * Solved as one ampere in at `a` and out at `b`, so that a common leakage to earth, however
 * large, is never subtracted.
 */
export function impedanceBetween(spectrum: Spectrum, a: number, b: number): Complex {
  const factor = spectrum.factor();
  const re = new Float64Array(factor.topology.nodes);
  const im = new Float64Array(factor.topology.nodes);
  if (a !== REFERENCE) re[a]! += 1;
  if (b !== REFERENCE) re[b]! -= 1;
  const solved = solveFor(factor, re, im);
  const at = (node: number) =>
    node === REFERENCE ? complex(0) : complex(solved.re[node]!, solved.im[node]!);
  return subtract(at(a), at(b));
}
