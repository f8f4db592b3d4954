import { FUSE_BREAKS, SUPPLY_HERTZ, TYPE_B_TRIP_MULTIPLE } from '../published/index.ts';
import { directLength } from './direct.ts';
import { factorLength } from './factor.ts';
import { admittance, type Parts, partsWhile } from './impedance.ts';
import type { Branch, ElementBranch, Network } from './network.ts';
import { type Marks, type Register, type Rule, registerOf } from './register.ts';

/** What a branch is made of, with its admittance at the supply frequency and for direct current, siemens. */
export interface Values {
  readonly parts: Parts;
  readonly re: number;
  readonly im: number;
  readonly direct: number;
}

/** A branch that a state changes, with what it is while on and while off. */
export interface Switch {
  readonly branch: number;
  readonly isOn: Rule;
  readonly on: Values;
  readonly off: Values;
}

/** A winding, and the places of its marks. */
interface Winding {
  readonly branch: number;
  readonly energised: number;
  readonly held: number;
  readonly ratedVolts: number;
  /** Shares of its rated voltage. */
  readonly operates: number;
  readonly holds: number;
  /** Whether its device is on its base; absent where that never comes off. */
  readonly isThere?: Rule;
}

/** A fuse or breaker, the place of its mark, and the current at which it opens, amperes. */
export interface Breaking {
  readonly branch: number;
  /** What it is made of while whole. */
  readonly parts: Parts;
  readonly blown: number;
  readonly limit: number;
  /** The branch of its neutral, and how far the two currents may differ, amperes. */
  readonly residual?: { readonly neutral: number; readonly amps: number };
}

/** Angular frequency of the supply, radians per second. */
const OMEGA = 2 * Math.PI * SUPPLY_HERTZ;

/** What is the same in every state of a network, worked out once for all of them. */
export class Prepared {
  readonly network: Network;
  readonly register: Register;
  readonly switches: readonly Switch[];
  /** Branches through which the supply acts, whatever the state, with what each drives, amperes. */
  readonly supplies: readonly { readonly branch: number; readonly amps: number }[];
  readonly windings: readonly Winding[];
  readonly breakings: readonly Breaking[];
  #fixed: Float64Array | undefined;
  #fixedDirect: Float64Array | undefined;
  #parts: readonly Parts[] | undefined;

  constructor(network: Network) {
    const { branches } = network;
    const register = registerOf(network.items);
    const switches: Switch[] = [];
    const supplies: { branch: number; amps: number }[] = [];
    const windings: Winding[] = [];
    const breakings: Breaking[] = [];
    for (let i = 0; i < branches.length; i++) {
      const branch = branches[i]!;
      if (branch.kind === 'stray') continue;
      const isOn = register.isOn(branch);
      if (branch.kind === 'supply' && branch.volts !== 0)
        supplies.push({ branch: i, amps: branch.volts / branch.ohms });
      if (branch.kind !== 'element' && !isOn) continue;
      const [off, on] = valuesOf(branch);
      if (isOn) switches.push({ branch: i, isOn, on, off });
      if (branch.kind !== 'element') continue;
      const { element, id } = branch;
      if ('operates' in element && !branch.idle) {
        const { ratedVolts, operates, holds } = element;
        const energised = register.energised.get(id)!;
        const held = register.held.get(id)!;
        // Of a load no state changes anything but whether it is there at all.
        const there = isOn ? { isThere: isOn } : {};
        windings.push({ branch: i, energised, held, ratedVolts, operates, holds, ...there });
      }
      const limit = breakingAmps(branch);
      if (limit === null) continue;
      const residual = residualOf(network, branch);
      const blown = register.blown.get(id)!;
      breakings.push({ branch: i, blown, limit, parts: on.parts, ...(residual && { residual }) });
    }
    this.network = network;
    this.register = register;
    this.switches = switches;
    this.supplies = supplies;
    this.windings = windings;
    this.breakings = breakings;
  }

  /** What no state changes, siemens: summed by slot as `factorise` takes it. */
  get fixed(): Float64Array {
    if (this.#fixed) return this.#fixed;
    const { topology } = this.network;
    const fixed = new Float64Array(factorLength(topology));
    this.#each((branch, slot) => {
      if (branch.kind === 'stray') {
        fixed[2 * slot]! += branch.siemens;
        fixed[2 * slot + 1]! += OMEGA * branch.farads;
      } else if (branch.kind === 'element') {
        const { re, im } = valuesOf(branch)[1];
        fixed[2 * slot]! += re;
        fixed[2 * slot + 1]! += im;
      } else fixed[2 * slot]! += 1 / (branch.ohms + (branch.seriesOhms ?? 0));
    });
    this.#fixed = fixed;
    return fixed;
  }

  /** The same for direct current, as `factoriseDirect` takes it. */
  get fixedDirect(): Float64Array {
    if (this.#fixedDirect) return this.#fixedDirect;
    const fixed = new Float64Array(directLength(this.network.topology));
    this.#each((branch, slot) => {
      if (branch.kind === 'stray') fixed[slot]! += branch.siemens;
      else if (branch.kind === 'element') fixed[slot]! += valuesOf(branch)[1].direct;
      else fixed[slot]! += 1 / (branch.ohms + (branch.seriesOhms ?? 0));
    });
    this.#fixedDirect = fixed;
    return fixed;
  }

  /** What each branch is made of with every switch on. */
  get parts(): readonly Parts[] {
    this.#parts ??= this.network.branches.map((branch) => valuesOf(branch)[1].parts);
    return this.#parts;
  }

  /** Calls back with every branch that no state changes, in order. */
  #each(visit: (branch: Branch, slot: number) => void): void {
    const { branches, topology } = this.network;
    let next = 0;
    for (let i = 0; i < branches.length; i++) {
      if (this.switches[next]?.branch === i) next++;
      else visit(branches[i]!, topology.slot[i]!);
    }
  }

  /** Which switches are on in a state, 0 or 1 each. */
  patternOf(marks: Marks): Uint8Array {
    const { switches } = this;
    const pattern = new Uint8Array(switches.length);
    for (let i = 0; i < switches.length; i++) pattern[i] = switches[i]!.isOn(marks) ? 1 : 0;
    return pattern;
  }
}

/**
 * Of a breaker that trips on residual current, here at its full rated one: between half of that
 * and all of it one may trip and another not.
 */
function residualOf({ branchIndex }: Network, { element, item }: ElementBranch) {
  if (element.kind !== 'breaker' || !element.residual) return undefined;
  const { neutral, amps } = element.residual;
  return { neutral: branchIndex.get(`${item}/${neutral}`)!, amps };
}

/** Current at which a fuse or breaker must open, amperes; null for anything else. */
export function breakingAmps({ element }: ElementBranch): number | null {
  if (element.kind === 'fuse') return element.rating * FUSE_BREAKS[element.standard].multiple;
  if (element.kind === 'breaker') return element.rating * TYPE_B_TRIP_MULTIPLE;
  return null;
}

/** What a branch is while on and while off: kept, since circuits share branches. */
const values = new WeakMap<Branch, readonly [off: Values, on: Values]>();

function valuesOf(branch: Branch): readonly [off: Values, on: Values] {
  const before = values.get(branch);
  if (before) return before;
  const made = [valuesWhile(branch, false), valuesWhile(branch, true)] as const;
  values.set(branch, made);
  return made;
}

function valuesWhile(branch: Branch, on: boolean): Values {
  const parts = partsWhile(branch, on, SUPPLY_HERTZ);
  const { re, im } = admittance(parts, SUPPLY_HERTZ);
  return { parts, re, im, direct: admittance(parts, 0).re };
}

const known = new WeakMap<Network, Prepared>();

/** A network made ready to be solved in any state, once. */
export function prepare(network: Network): Prepared {
  const before = known.get(network);
  if (before) return before;
  const made = new Prepared(network);
  known.set(network, made);
  return made;
}
