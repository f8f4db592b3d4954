import { type Source, seen } from './source.ts';

/** Least insulation resistance, MΩ, with the test voltage in volts DC. */
export const INSULATION_LIMITS: {
  readonly extraLow: { readonly testVolts: number; readonly megohms: number };
  readonly mains: { readonly testVolts: number; readonly megohms: number };
  readonly equipmentConnected: { readonly testVolts: number; readonly megohms: number };
  readonly source: Source;
} = {
  extraLow: { testVolts: 250, megohms: 0.5 },
  mains: { testVolts: 500, megohms: 1 },
  equipmentConnected: { testVolts: 250, megohms: 1 },
  source: seen('BS 7671 Table 64 and 643.3.3; IEC 60364-6'),
};
