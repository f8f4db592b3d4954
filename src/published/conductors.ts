import { type Celsius, type Ohms, ohms } from '../units/index.ts';
import { type Source, seen } from './source.ts';

/** IEC 60228 conductor classes: 1 and 2 solid or stranded, 5 flexible. */
export type ConductorClass = 'solid' | 'flexible';

/** Sizes, in mm², for which IEC 60228 gives a value that heating work uses. */
export const CONDUCTOR_SIZES = [0.5, 0.75, 1, 1.5, 2.5, 4] as const;
export type ConductorSize = (typeof CONDUCTOR_SIZES)[number];

/** Greatest resistance at 20 °C, plain copper, Ω/km, by class and size in mm². */
export const CONDUCTOR_OHMS_PER_KM: {
  readonly [C in ConductorClass]: { readonly [S in ConductorSize]: number };
} = {
  solid: { 0.5: 36.0, 0.75: 24.5, 1: 18.1, 1.5: 12.1, 2.5: 7.41, 4: 4.61 },
  flexible: { 0.5: 39.0, 0.75: 26.0, 1: 19.5, 1.5: 13.3, 2.5: 7.98, 4: 4.95 },
};
export const CONDUCTOR_SOURCE: Source = seen(
  'IEC 60228, maximum resistance at 20 °C, plain copper, classes 1/2 and 5',
);

/** What R1 + R2 of a line and a protective conductor comes to, size by size. */
export const CONTINUITY_SOURCE: Source = seen(
  'IET On-Site Guide, Table I1, R1 + R2 at 20 °C, as quoted: sums of IEC 60228',
);

/**
 * Resistance of one metre of a conductor at a temperature.
 * Uses IEC 60228's own correction to 20 °C, k = 254.5 / (t + 234.5), inverted.
 */
export function ohmsPerMetre(
  conductorClass: ConductorClass,
  size: ConductorSize,
  temperature: Celsius,
): Ohms {
  const at20 = CONDUCTOR_OHMS_PER_KM[conductorClass][size] / 1000;
  return ohms(at20 / temperatureFactor(temperature));
}

/** IEC 60228 factor that corrects a resistance measured at `temperature` to 20 °C. */
export function temperatureFactor(temperature: Celsius): number {
  return 254.5 / (temperature + 234.5);
}
