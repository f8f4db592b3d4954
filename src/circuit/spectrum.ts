import { SUPPLY_HERTZ } from '../published/index.ts';
import { type Complex, complex } from './complex.ts';
import { type DirectFactor, factoriseDirect, resistance, solveDirect } from './direct.ts';
import {
  type Factor,
  factorise,
  impedance,
  type Potentials,
  solveFor,
  solveSources,
} from './factor.ts';
import type { Prepared, Values } from './prepared.ts';

/** The solution at one frequency; worked out only as far as it is asked. */
export interface Spectrum {
  readonly hertz: number;
  /** Node voltages to the supply's star point; null when no source acts at this frequency. */
  potentials(): Potentials | null;
  /** Impedance seen between two nodes with every source at rest, ohms. */
  impedance(a: number, b: number): Complex;
}

/** A network with some of its switches on: which, one of 0 and 1 each. */
export interface Circuit {
  readonly prepared: Prepared;
  readonly pattern: Uint8Array;
}

/** What each switch is in a circuit. */
export function switched({ prepared: { switches }, pattern }: Circuit, i: number): Values {
  const { on, off } = switches[i]!;
  return pattern[i] === 1 ? on : off;
}

/** The spectrum at the supply frequency. */
export class Alternating implements Spectrum {
  readonly hertz = SUPPLY_HERTZ;
  readonly #circuit: Circuit;
  #factor: Factor | undefined;
  #potentials: Potentials | null | undefined;

  constructor(circuit: Circuit) {
    this.#circuit = circuit;
  }

  potentials(): Potentials | null {
    if (this.#potentials !== undefined) return this.#potentials;
    const { topology } = this.#circuit.prepared.network;
    const acting = sources(this.#circuit, 'ac');
    // A source to the reference has but one end, as the supply's.
    const isBetween = acting.some(({ slot }) => slot < topology.edges);
    const from = isBetween ? 0 : topology.edges;
    const flows = scratch(2 * (topology.edges + topology.nodes - from));
    for (const { slot, re, im } of acting) {
      flows[2 * (slot - from)]! += re;
      flows[2 * (slot - from) + 1]! += im;
    }
    if (acting.length === 0) this.#potentials = null;
    else this.#potentials = (isBetween ? solveSources : solveFor)(this.#reduced(), flows);
    return this.#potentials;
  }

  impedance(a: number, b: number): Complex {
    return impedance(this.#reduced(), a, b);
  }

  #reduced(): Factor {
    if (this.#factor) return this.#factor;
    const { network, fixed, switches } = this.#circuit.prepared;
    const { topology } = network;
    const slots = fixed.slice();
    for (let i = 0; i < switches.length; i++) {
      const { re, im } = switched(this.#circuit, i);
      const k = 2 * topology.slot[switches[i]!.branch]!;
      slots[k]! += re;
      slots[k + 1]! += im;
    }
    this.#factor = factorise(topology, slots);
    return this.#factor;
  }
}

/** The spectrum of direct current. */
export class Direct implements Spectrum {
  readonly hertz = 0;
  readonly #circuit: Circuit;
  #factor: DirectFactor | undefined;
  #potentials: Potentials | null | undefined;

  constructor(circuit: Circuit) {
    this.#circuit = circuit;
  }

  potentials(): Potentials | null {
    if (this.#potentials !== undefined) return this.#potentials;
    const { topology } = this.#circuit.prepared.network;
    const acting = sources(this.#circuit, 'dc');
    const flows = scratch(topology.edges + topology.nodes);
    for (const { slot, re } of acting) flows[slot]! += re;
    this.#potentials = acting.length === 0 ? null : solveDirect(this.#reduced(), flows);
    return this.#potentials;
  }

  impedance(a: number, b: number): Complex {
    return complex(resistance(this.#reduced(), a, b));
  }

  #reduced(): DirectFactor {
    if (this.#factor) return this.#factor;
    const { network, fixedDirect, switches } = this.#circuit.prepared;
    const { topology } = network;
    const slots = fixedDirect.slice();
    for (let i = 0; i < switches.length; i++) {
      slots[topology.slot[switches[i]!.branch]!]! += switched(this.#circuit, i).direct;
    }
    this.#factor = factoriseDirect(topology, slots);
    return this.#factor;
  }
}

/** What a source drives into the end of its slot eliminated first, amperes. */
interface Driven {
  readonly slot: number;
  readonly re: number;
  readonly im: number;
}

/** The sources that act in a circuit at one frequency. */
function sources({ prepared, pattern }: Circuit, current: 'ac' | 'dc'): Driven[] {
  const { network, switches, supplies } = prepared;
  const { slot, sense } = network.topology;
  const acting: Driven[] = [];
  if (current === 'ac') {
    for (const { branch, amps } of supplies) {
      acting.push({ slot: slot[branch]!, re: sense[branch]! * amps, im: 0 });
    }
  }
  for (let i = 0; i < switches.length; i++) {
    const { branch, on } = switches[i]!;
    const { parts } = on;
    if (pattern[i] === 0 || parts.current !== current || parts.volts === 0) continue;
    const volts = sense[branch]! * parts.volts;
    const { re, im } = current === 'ac' ? on : { re: on.direct, im: 0 };
    acting.push({ slot: slot[branch]!, re: re * volts, im: im * volts });
  }
  return acting;
}

/** Room for currents on their way through an elimination, all zero; good until the next call. */
function scratch(length: number): Float64Array {
  if (room.length < length) room = new Float64Array(length);
  const taken = room.subarray(0, length);
  taken.fill(0);
  return taken;
}

let room = new Float64Array(0);
