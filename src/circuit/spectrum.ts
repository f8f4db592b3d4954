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
  /** The pair asked last: one instrument after another is laid on it. */
  #last: { readonly a: number; readonly b: number; readonly between: Complex } | undefined;

  constructor(circuit: Circuit) {
    this.#circuit = circuit;
  }

  potentials(): Potentials | null {
    if (this.#potentials !== undefined) return this.#potentials;
    const { fixed, network } = this.#circuit.prepared;
    const { edges, nodes } = network.topology;
    const acting = sources(this.#circuit, 'ac');
    if (acting.length === 0) {
      this.#potentials = null;
      return null;
    }
    // A source to the reference has but one end, as the supply's.
    const isBetween = acting.some(({ slot }) => slot < edges);
    const from = isBetween ? 0 : edges;
    const flows = FLOWS.zeros(2 * (edges + nodes - from));
    for (const { slot, re, im } of acting) {
      flows[2 * (slot - from)]! += re;
      flows[2 * (slot - from) + 1]! += im;
    }
    // Most states are passed through and never read: their factor is not kept.
    const factor = this.#factor ?? this.#reduced(FACTOR.copy(fixed));
    this.#potentials = (isBetween ? solveSources : solveFor)(factor, flows);
    return this.#potentials;
  }

  impedance(a: number, b: number): Complex {
    if (this.#last?.a === a && this.#last.b === b) return this.#last.between;
    this.#factor ??= this.#reduced(this.#circuit.prepared.fixed.slice());
    const between = impedance(this.#factor, a, b);
    this.#last = { a, b, between };
    return between;
  }

  /** @param slots what no state changes; becomes the factor. */
  #reduced(slots: Float64Array): Factor {
    const { network, switches } = this.#circuit.prepared;
    const { topology } = network;
    for (let i = 0; i < switches.length; i++) {
      const { re, im } = switched(this.#circuit, i);
      const k = 2 * topology.slot[switches[i]!.branch]!;
      slots[k]! += re;
      slots[k + 1]! += im;
    }
    return factorise(topology, slots);
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
    const { fixedDirect } = this.#circuit.prepared;
    const acting = sources(this.#circuit, 'dc');
    if (acting.length === 0) {
      this.#potentials = null;
      return null;
    }
    const flows = FLOWS.zeros(fixedDirect.length);
    for (const { slot, re } of acting) flows[slot]! += re;
    this.#potentials = solveDirect(this.#factor ?? this.#reduced(FACTOR.copy(fixedDirect)), flows);
    return this.#potentials;
  }

  impedance(a: number, b: number): Complex {
    this.#factor ??= this.#reduced(this.#circuit.prepared.fixedDirect.slice());
    return complex(resistance(this.#factor, a, b));
  }

  /** @param slots what no state changes; becomes the factor. */
  #reduced(slots: Float64Array): DirectFactor {
    const { network, switches } = this.#circuit.prepared;
    const { topology } = network;
    for (let i = 0; i < switches.length; i++) {
      slots[topology.slot[switches[i]!.branch]!]! += switched(this.#circuit, i).direct;
    }
    return factoriseDirect(topology, slots);
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

/** Room that is used again and again: what was taken is good until the next is taken. */
class Room {
  #numbers = new Float64Array(0);

  zeros(length: number): Float64Array {
    return this.#take(length).fill(0, 0, length);
  }

  copy(numbers: Float64Array): Float64Array {
    const taken = this.#take(numbers.length);
    taken.set(numbers);
    return taken;
  }

  /** As long as asked for, or longer. */
  #take(length: number): Float64Array {
    if (this.#numbers.length < length) this.#numbers = new Float64Array(length);
    return this.#numbers;
  }
}

/** Currents on their way through an elimination, and the factor of a state that is passed through. */
const FLOWS = new Room();
const FACTOR = new Room();
