import { FUSE_BREAKS, SUPPLY_HERTZ, TYPE_B_TRIP_MULTIPLE } from '../published/index.ts';
import { directLength } from './direct.ts';
import { factorLength } from './factor.ts';
import { admittance, type Parts, partsWhile } from './impedance.ts';
import type { ElementBranch, Network } from './network.ts';
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
}

/** A fuse or breaker, the place of its mark, and the current at which it opens, amperes. */
interface Breaking {
  readonly branch: number;
  /** What it is made of while whole. */
  readonly parts: Parts;
  readonly blown: number;
  readonly limit: number;
}

/** Angular frequency of the supply, radians per second. */
const OMEGA = 2 * Math.PI * SUPPLY_HERTZ;

/** What is the same in every state of a network, worked out once for all of them. */
export class Prepared {
  readonly network: Network;
  readonly register: Register;
  /** What no state changes, siemens: summed by slot as `factorise` and `factoriseDirect` take it. */
  readonly fixed: Float64Array;
  readonly fixedDirect: Float64Array;
  readonly switches: readonly Switch[];
  /** Branches through which the supply acts, whatever the state, with what each drives, amperes. */
  readonly supplies: readonly { readonly branch: number; readonly amps: number }[];
  readonly windings: readonly Winding[];
  readonly breakings: readonly Breaking[];

  constructor(network: Network) {
    const { branches, topology } = network;
    const { slot } = topology;
    const register = registerOf(network.items);
    const fixed = new Float64Array(factorLength(topology));
    const fixedDirect = new Float64Array(directLength(topology));
    const switches: Switch[] = [];
    const supplies: { branch: number; amps: number }[] = [];
    const windings: Winding[] = [];
    const breakings: Breaking[] = [];
    for (let i = 0; i < branches.length; i++) {
      const branch = branches[i]!;
      const k = slot[i]!;
      if (branch.kind === 'stray') {
        fixed[2 * k]! += branch.siemens;
        fixed[2 * k + 1]! += OMEGA * branch.farads;
        fixedDirect[k]! += branch.siemens;
        continue;
      }
      if (branch.kind !== 'element') {
        fixed[2 * k]! += 1 / branch.ohms;
        fixedDirect[k]! += 1 / branch.ohms;
        if (branch.kind === 'supply' && branch.volts !== 0)
          supplies.push({ branch: i, amps: branch.volts / branch.ohms });
        continue;
      }
      const { element, id } = branch;
      const [off, on] = valuesOf(branch);
      const isOn = register.isOn(branch);
      if (isOn) {
        switches.push({ branch: i, isOn, on, off });
      } else {
        fixed[2 * k]! += on.re;
        fixed[2 * k + 1]! += on.im;
        fixedDirect[k]! += on.direct;
      }
      if ('operates' in element) {
        const { ratedVolts, operates, holds } = element;
        const energised = register.energised.get(id)!;
        const held = register.held.get(id)!;
        windings.push({ branch: i, energised, held, ratedVolts, operates, holds });
      }
      const limit = breakingAmps(branch);
      if (limit !== null)
        breakings.push({ branch: i, blown: register.blown.get(id)!, limit, parts: on.parts });
    }
    this.network = network;
    this.register = register;
    this.fixed = fixed;
    this.fixedDirect = fixedDirect;
    this.switches = switches;
    this.supplies = supplies;
    this.windings = windings;
    this.breakings = breakings;
  }

  /** Which switches are on in a state, 0 or 1 each. */
  patternOf(marks: Marks): Uint8Array {
    const { switches } = this;
    const pattern = new Uint8Array(switches.length);
    for (let i = 0; i < switches.length; i++) pattern[i] = switches[i]!.isOn(marks) ? 1 : 0;
    return pattern;
  }
}

/** Current at which a fuse or breaker must open, amperes; null for anything else. */
export function breakingAmps({ element }: ElementBranch): number | null {
  if (element.kind === 'fuse') return element.rating * FUSE_BREAKS[element.standard].multiple;
  if (element.kind === 'breaker') return element.rating * TYPE_B_TRIP_MULTIPLE;
  return null;
}

/** By element, what its branch is while on and while off: kept, since circuits share elements. */
const values = new WeakMap<ElementBranch['element'], readonly [off: Values, on: Values]>();

function valuesOf(branch: ElementBranch): readonly [off: Values, on: Values] {
  const before = values.get(branch.element);
  if (before) return before;
  const made = [valuesWhile(branch, false), valuesWhile(branch, true)] as const;
  values.set(branch.element, made);
  return made;
}

function valuesWhile(branch: ElementBranch, on: boolean): Values {
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
