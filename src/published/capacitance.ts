import { derived, seen } from './source.ts';

/**
 * Capacitance between two cores of one cable, farads per metre.
 * Measured house cable is about 69 pF/m; the rule of thumb is 100 pF/m and more.
 */
export const CORE_CAPACITANCE_PER_METRE = 100e-12;
export const CORE_CAPACITANCE_SOURCE = seen(
  'The Capacitance Connection, Nuts & Volts: about 69 pF/m measured; rule of thumb ≥ 100 pF/m, 10 m ≈ 1 nF',
);

/**
 * Closed form for the voltage a meter of resistance `ohms` shows on a core that floats
 * between a live core (capacitance `toLive`) and earth (capacitance `toEarth`):
 * V·ωC1R / √(1 + (ωR(C1+C2))²).
 */
export function inducedVolts(
  supplyVolts: number,
  frequency: number,
  toLive: number,
  toEarth: number,
  ohms: number,
): number {
  const omega = 2 * Math.PI * frequency;
  return (supplyVolts * omega * toLive * ohms) / Math.hypot(1, omega * ohms * (toLive + toEarth));
}
export const INDUCED_SOURCE = derived('capacitive divider loaded by the meter’s resistance');

/** Insulation conductance between two cores, siemens per metre (10 GΩ·m). */
export const CORE_LEAKAGE_PER_METRE = 1e-10;
