import { SUPPLY_HERTZ } from '../published/index.ts';
import { type Complex, complex } from './complex.ts';
import { type DirectFactor, factoriseDirect, resistance, solveDirect } from './direct.ts';
import { type Factor, factorise, impedance, type Potentials, solveSources } from './factor.ts';
import type { SupplyBranch } from './network.ts';
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
    const { fixed } = this.#circuit.prepared;
    const flows = driven(this.#circuit, 'ac', fixed.length, (into, slot, { re, im }, volts) => {
      into[2 * slot]! += re * volts;
      into[2 * slot + 1]! += im * volts;
    });
    this.#potentials = flows && solveSources(this.#reduced(), flows);
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
    const { network, fixedDirect } = this.#circuit.prepared;
    const flows = driven(
      this.#circuit,
      'dc',
      fixedDirect.length,
      (into, slot, { direct }, volts) => {
        into[slot]! += direct * volts;
      },
    );
    this.#potentials = flows && {
      re: solveDirect(this.#reduced(), flows),
      im: new Float64Array(network.topology.nodes),
    };
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

/** What the sources that act drive into each slot, amperes; null where none acts. */
function driven(
  circuit: Circuit,
  current: 'ac' | 'dc',
  length: number,
  drive: (into: Float64Array, slot: number, y: Admittance, volts: number) => void,
): Float64Array | null {
  const { network, switches, supplies } = circuit.prepared;
  const { slot, sense } = network.topology;
  let flows: Float64Array | null = null;
  const add = (branch: number, y: Admittance, volts: number) => {
    flows ??= new Float64Array(length);
    drive(flows, slot[branch]!, y, sense[branch]! * volts);
  };
  if (current === 'ac') {
    for (const branch of supplies) {
      const { ohms, volts } = network.branches[branch] as SupplyBranch;
      add(branch, { re: 1 / ohms, im: 0, direct: 0 }, volts);
    }
  }
  for (let i = 0; i < switches.length; i++) {
    const values = switched(circuit, i);
    const { parts } = values;
    if (parts.current === current && parts.volts !== 0)
      add(switches[i]!.branch, values, parts.volts);
  }
  return flows;
}

type Admittance = Pick<Values, 're' | 'im' | 'direct'>;
