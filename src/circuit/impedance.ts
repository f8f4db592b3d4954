import { type Complex, complex, divide } from './complex.ts';
import {
  BLOWN_OHMS,
  BREAKER_OHMS,
  CLOSED_CONTACT_OHMS,
  FUSE_OHMS,
  LINK_OHMS,
  OPEN_CONTACT_OHMS,
} from './constants.ts';
import type { Branch, ElementBranch } from './network.ts';
import { holds } from './rules.ts';
import type { State } from './state.ts';

/** A branch as a series of resistance and inductance beside a capacitance, with its source. */
export interface Parts {
  readonly ohms: number;
  readonly henries: number;
  readonly farads: number;
  /** Volts of a source in series: `from` positive, RMS if alternating. */
  readonly volts: number;
  readonly current: 'ac' | 'dc' | 'none';
}

const passive = (ohms: number, henries = 0, farads = 0): Parts => ({
  ohms,
  henries,
  farads,
  volts: 0,
  current: 'none',
});

/**
 * What a branch is made of in a state: the one place that decides it, for the solver and
 * for the netlist that checks the solver.
 * @param supplyHertz frequency at which a load's reactance is stated.
 */
export function partsOf(branch: Branch, state: State, supplyHertz: number): Parts {
  return partsWhile(branch, isOn(branch, state), supplyHertz);
}

/** Whether its device is in its place, and a contact closed, a fuse whole, a source powered. */
function isOn(branch: Branch, state: State): boolean {
  if (branch.presence !== undefined && !state.conditions.get(branch.presence)) return false;
  if (branch.kind !== 'element') return true;
  const { element, item } = branch;
  switch (element.kind) {
    case 'contact':
      return holds(element.closed, item, state);
    case 'fuse':
    case 'breaker':
      return !state.blown.has(branch.id);
    case 'source':
      return element.poweredBy === undefined || state.energised.has(`${item}/${element.poweredBy}`);
    default:
      return true;
  }
}

/**
 * What a branch is made of while its contact is closed, its fuse whole or its source powered, or
 * while it is not; a branch that no state changes is the same in both. Of a device that comes
 * off its base nothing conducts while it is off, whatever is wrong inside it.
 */
export function partsWhile(branch: Branch, on: boolean, supplyHertz: number): Parts {
  if (branch.presence !== undefined && !on) return passive(OPEN_CONTACT_OHMS);
  switch (branch.kind) {
    case 'conductor':
    case 'wire link':
      return passive(branch.ohms + (branch.seriesOhms ?? 0));
    case 'stray':
      // Infinite where nothing leaks.
      return passive(1 / branch.siemens, 0, branch.farads);
    case 'supply':
      return { ...passive(branch.ohms), volts: branch.volts, current: 'ac' };
    case 'faulty':
    case 'strange path':
      return passive(branch.ohms);
    case 'element': {
      const parts = elementParts(branch, on, supplyHertz);
      return branch.seriesOhms ? { ...parts, ohms: parts.ohms + branch.seriesOhms } : parts;
    }
  }
}

function elementParts({ element }: ElementBranch, on: boolean, supplyHertz: number): Parts {
  switch (element.kind) {
    case 'link':
      return passive(LINK_OHMS);
    case 'contact':
      return passive(on ? CLOSED_CONTACT_OHMS : OPEN_CONTACT_OHMS);
    case 'fuse':
      return passive(on ? FUSE_OHMS : BLOWN_OHMS);
    case 'breaker':
      return passive(on ? BREAKER_OHMS : BLOWN_OHMS);
    case 'load':
    case 'motor': {
      const impedance = (element.ratedVolts ** 2 * element.powerFactor) / element.watts;
      const reactance = impedance * Math.sqrt(1 - element.powerFactor ** 2);
      return passive(impedance * element.powerFactor, reactance / (2 * Math.PI * supplyHertz));
    }
    case 'sensing':
    case 'resistor':
      return passive(element.ohms);
    case 'source':
      return {
        ...passive(element.ohms),
        volts: on ? element.volts : 0,
        current: element.current,
      };
  }
}

/** Admittance of a branch at a frequency, siemens; 0 Hz is direct current. */
export function admittance(parts: Parts, hertz: number): Complex {
  const omega = 2 * Math.PI * hertz;
  const series = complex(parts.ohms, omega * parts.henries);
  const through = Number.isFinite(parts.ohms) ? divide(complex(1), series) : complex(0);
  return complex(through.re, through.im + omega * parts.farads);
}
