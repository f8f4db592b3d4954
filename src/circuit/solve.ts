import { type Complex, complex, multiply, subtract } from './complex.ts';
import type { Potentials } from './factor.ts';
import { admittance, type Parts } from './impedance.ts';
import type { Network } from './network.ts';
import { type Prepared, prepare } from './prepared.ts';
import { isSame, type Marks } from './register.ts';
import { Alternating, Direct, type Spectrum, switched } from './spectrum.ts';
import type { State } from './state.ts';
import { REFERENCE } from './topology.ts';

/** A network solved in one state: at the supply frequency and for direct current. */
export interface Solution {
  readonly network: Network;
  /** What each branch is made of in the state. */
  readonly parts: readonly Parts[];
  readonly ac: Spectrum;
  readonly dc: Spectrum;
}

/** Solves a network in a state at the supply frequency and for direct current. */
export function solve(network: Network, state: State): Solution {
  const prepared = prepare(network);
  return new Solved(prepared, prepared.patternOf(prepared.register.marksOf(state)));
}

/** Solutions kept of one network, some kilobytes each. */
const MOST_SOLVED = 1024;
/** Among so many the one that fits is found by going through them, among more by its name. */
const FEW = 8;

/** The solutions of one network: most circuits are solved in one or two states, some in hundreds. */
interface Solutions {
  readonly few: Solved[];
  readonly more: Map<string, Solved>;
}

const known = new WeakMap<Prepared, Solutions>();

/** The solution in a state; states that close the same contacts share it. */
export function solveMarks(prepared: Prepared, marks: Marks): Solution {
  const pattern = prepared.patternOf(marks);
  let own = known.get(prepared);
  if (!own) {
    own = { few: [], more: new Map() };
    known.set(prepared, own);
  }
  const { few, more } = own;
  for (const solved of few) if (isSame(solved.pattern, pattern)) return solved;
  if (few.length < FEW) {
    const made = new Solved(prepared, pattern);
    few.push(made);
    return made;
  }
  const name: string = Reflect.apply(String.fromCharCode, null, pattern);
  const before = more.get(name);
  if (before) return before;
  if (more.size >= MOST_SOLVED) more.clear();
  const made = new Solved(prepared, pattern);
  more.set(name, made);
  return made;
}

class Solved implements Solution {
  readonly network: Network;
  readonly ac: Spectrum;
  readonly dc: Spectrum;
  readonly #prepared: Prepared;
  readonly pattern: Uint8Array;
  #parts: readonly Parts[] | undefined;

  constructor(prepared: Prepared, pattern: Uint8Array) {
    this.network = prepared.network;
    this.#prepared = prepared;
    this.pattern = pattern;
    this.ac = new Alternating({ prepared, pattern });
    this.dc = new Direct({ prepared, pattern });
  }

  get parts(): readonly Parts[] {
    if (this.#parts) return this.#parts;
    const circuit = { prepared: this.#prepared, pattern: this.pattern };
    const parts = this.#prepared.parts.slice();
    for (const [i, { branch }] of this.#prepared.switches.entries())
      parts[branch] = switched(circuit, i).parts;
    this.#parts = parts;
    return parts;
  }
}

/** Potential of a node to the supply's star point, volts; zero where no source drives one. */
export function potential(spectrum: Spectrum, node: number): Complex {
  const solved = spectrum.potentials();
  if (node === REFERENCE || solved === null) return complex(0);
  return complex(solved[2 * node]!, solved[2 * node + 1]!);
}

/** Voltage between two nodes, `a` to `b`, volts. */
export function voltage(spectrum: Spectrum, a: number, b: number): Complex {
  return subtract(potential(spectrum, a), potential(spectrum, b));
}

/**
 * Current through a branch from `from` to `to`, amperes, at one frequency.
 * @param part what the branch is made of, where that is at hand.
 */
export function branchCurrent(
  solution: Solution,
  branch: number,
  kind: 'ac' | 'dc',
  part: Parts = solution.parts[branch]!,
): Complex {
  const { from, to } = solution.network.branches[branch]!;
  const spectrum = solution[kind];
  const drop = voltage(spectrum, from, to);
  const source = part.current === kind ? part.volts : 0;
  return multiply(admittance(part, spectrum.hertz), complex(drop.re - source, drop.im));
}

/** Effective (RMS) voltage across a branch, alternating and direct together, volts. */
export function effectiveVolts(solution: Solution, branch: number): number {
  const { from, to } = solution.network.branches[branch]!;
  const ac = solution.ac.potentials();
  const dc = solution.dc.potentials();
  const re = ac ? at(ac, from, 0) - at(ac, to, 0) : 0;
  const im = ac ? at(ac, from, 1) - at(ac, to, 1) : 0;
  const direct = dc ? at(dc, from, 0) - at(dc, to, 0) : 0;
  return Math.sqrt(re * re + im * im + direct * direct);
}

const at = (potentials: Potentials, node: number, part: 0 | 1): number =>
  node === REFERENCE ? 0 : potentials[2 * node + part]!;

/** Effective (RMS) current through a branch, alternating and direct together, amperes. */
export function effectiveAmps(solution: Solution, branch: number, part?: Parts): number {
  const ac = branchCurrent(solution, branch, 'ac', part);
  const dc = branchCurrent(solution, branch, 'dc', part);
  return Math.hypot(ac.re, ac.im, dc.re);
}

/** Impedance seen between two nodes with every source at rest, ohms. */
export function impedanceBetween(spectrum: Spectrum, a: number, b: number): Complex {
  return spectrum.impedance(a, b);
}
