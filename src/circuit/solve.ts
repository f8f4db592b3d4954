import { SUPPLY_HERTZ } from '../published/index.ts';
import { type Complex, complex, multiply, subtract } from './complex.ts';
import { type Factor, factorise, type Potentials, solveFor, solveSources } from './factor.ts';
import { admittance, type Parts, partsOf } from './impedance.ts';
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
  const parts = network.branches.map((branch) => partsOf(branch, state, SUPPLY_HERTZ));
  return {
    network,
    parts,
    ac: spectrum(network, parts, SUPPLY_HERTZ, 'ac'),
    dc: spectrum(network, parts, 0, 'dc'),
  };
}

function spectrum(
  network: Network,
  parts: readonly Parts[],
  hertz: number,
  current: 'ac' | 'dc',
): Spectrum {
  const factor = once(() => {
    const re = new Float64Array(parts.length);
    const im = new Float64Array(parts.length);
    parts.forEach((part, i) => {
      const y = admittance(part, hertz);
      re[i] = y.re;
      im[i] = y.im;
    });
    return factorise(network.topology, re, im);
  });
  const potentials = once(() => {
    const re = new Float64Array(parts.length);
    const im = new Float64Array(parts.length);
    let acts = false;
    parts.forEach((part, i) => {
      if (part.current !== current || part.volts === 0) return;
      acts = true;
      const flow = multiply(admittance(part, hertz), complex(part.volts));
      re[i] = flow.re;
      im[i] = flow.im;
    });
    return acts ? solveSources(factor(), re, im) : null;
  });
  return { hertz, factor, potentials };
}

function inject(
  re: Float64Array,
  im: Float64Array,
  node: number,
  flow: Complex,
  sign: 1 | -1,
): void {
  if (node === REFERENCE) return;
  re[node]! += sign * flow.re;
  im[node]! += sign * flow.im;
}

function once<T>(make: () => T): () => T {
  let made: { value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** Potential of a node to the supply's star point, volts; zero where nothing acts. */
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
  inject(re, im, a, complex(1), 1);
  inject(re, im, b, complex(1), -1);
  const solved = solveFor(factor, re, im);
  const at = (node: number) =>
    node === REFERENCE ? complex(0) : complex(solved.re[node]!, solved.im[node]!);
  return subtract(at(a), at(b));
}
