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
  // Off its base a device conducts nothing, whatever is wrong inside it.
  if (branch.presence !== undefined && !state.conditions.get(branch.presence))
    return passive(OPEN_CONTACT_OHMS);
  switch (branch.kind) {
    case 'conductor':
    case 'wire link':
      return passive(branch.ohms);
    case 'stray':
      // Infinite where nothing leaks.
      return passive(1 / branch.siemens, 0, branch.farads);
    case 'supply':
      return { ...passive(branch.ohms), volts: branch.volts, current: 'ac' };
    case 'faulty':
    case 'strange path':
      return passive(branch.ohms);
    case 'element': {
      const parts = elementParts(branch, state, supplyHertz);
      return branch.seriesOhms ? { ...parts, ohms: parts.ohms + branch.seriesOhms } : parts;
    }
  }
}

/** Whether a state can change what a branch is made of; any other branch is the same in all. */
export function changesWithState(branch: Branch): boolean {
  if (branch.presence !== undefined) return true;
  if (branch.kind !== 'element') return false;
  const { kind } = branch.element;
  return kind === 'contact' || kind === 'fuse' || kind === 'breaker' || kind === 'source';
}

function elementParts(branch: ElementBranch, state: State, supplyHertz: number): Parts {
  const { element } = branch;
  switch (element.kind) {
    case 'link':
      return passive(LINK_OHMS);
    case 'contact':
      return passive(
        holds(element.closed, branch.item, state) ? CLOSED_CONTACT_OHMS : OPEN_CONTACT_OHMS,
      );
    case 'fuse':
      return passive(state.blown.has(branch.id) ? BLOWN_OHMS : FUSE_OHMS);
    case 'breaker':
      return passive(state.blown.has(branch.id) ? BLOWN_OHMS : BREAKER_OHMS);
    case 'load':
    case 'motor': {
      const impedance = (element.ratedVolts ** 2 * element.powerFactor) / element.watts;
      const reactance = impedance * Math.sqrt(1 - element.powerFactor ** 2);
      return passive(impedance * element.powerFactor, reactance / (2 * Math.PI * supplyHertz));
    }
    case 'sensing':
    case 'resistor':
      return passive(element.ohms);
    case 'source': {
      const powered =
        element.poweredBy === undefined ||
        state.energised.has(`${branch.item}/${element.poweredBy}`);
      return {
        ...passive(element.ohms),
        volts: powered ? element.volts : 0,
        current: element.current,
      };
    }
  }
}

/** Admittance of a branch at a frequency, siemens; 0 Hz is direct current. */
export function admittance(parts: Parts, hertz: number): Complex {
  const omega = 2 * Math.PI * hertz;
  const series = complex(parts.ohms, omega * parts.henries);
  const through = Number.isFinite(parts.ohms) ? divide(complex(1), series) : complex(0);
  return complex(through.re, through.im + omega * parts.farads);
}
