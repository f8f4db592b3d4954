import { type Hertz, hertz, type Volts, volts } from '../units/index.ts';
import { fromMemory, type Source, seen } from './source.ts';

/** Nominal low-voltage supply, line to neutral. */
export const NOMINAL_VOLTS: Volts = volts(230);
/** Supply frequency. */
export const SUPPLY_HERTZ: Hertz = hertz(50);

/** Statutory limits of the supply at its origin: 230 V +10 % / −6 %. */
export const STATUTORY_LIMITS: {
  readonly low: Volts;
  readonly high: Volts;
  readonly source: Source;
} = {
  low: volts(216.2),
  high: volts(253),
  source: seen('SI 1994/3021: 230 V +10/−6 %, 50 Hz; kept by the ESQCR 2002 (from memory)'),
};

/** Greatest volt drop in a consumer's installation as a share of nominal voltage. */
export const VOLT_DROP_SHARES = { lighting: 0.03, other: 0.05 } as const;

/** Greatest volt drop in a consumer's installation, other than lighting: 5 % of nominal. */
export const VOLT_DROP_LIMIT: { readonly volts: Volts; readonly source: Source } = {
  volts: volts(11.5),
  source: seen('BS 7671 Appendix 4; Linsley, Basic Electrical Installation Work'),
};

/** Greatest voltage between neutral and earth at a boiler that fires; above it the supply is looked into. */
export const NEUTRAL_TO_EARTH_LIMIT: { readonly volts: Volts; readonly source: Source } = {
  volts: volts(15),
  source: seen('A boiler manufacturer’s installation manual, preliminary electrical checks'),
};

/** Upper limits of extra-low voltage: AC RMS and ripple-free DC. */
export const EXTRA_LOW_LIMITS: { readonly ac: Volts; readonly dc: Volts; readonly source: Source } =
  {
    ac: volts(50),
    dc: volts(120),
    source: seen('IEC voltage bands: extra-low voltage ≤ 50 V AC, ≤ 120 V ripple-free DC'),
  };

/**
 * External earth fault loop impedance a distributor declares at most for each earthing
 * arrangement, in ohms.
 */
export const EXTERNAL_LOOP_OHMS = {
  'TN-C-S': 0.35,
  'TN-S': 0.8,
  TT: 21,
  source: fromMemory('Distributors’ declared maxima: TN-C-S 0.35 Ω, TN-S 0.8 Ω, TT 21 Ω'),
} as const;
