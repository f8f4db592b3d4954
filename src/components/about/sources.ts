import { WEIGHT_SOURCES } from '../../diagnosis/index.ts';
import {
  COLOUR_SOURCE,
  CONDUCTOR_SOURCE,
  CORE_CAPACITANCE_SOURCE,
  CORE_SETS,
  EXTERNAL_LOOP_OHMS,
  EXTRA_LOW_LIMITS,
  FUSE_BREAKS,
  FUSE_CARRIES,
  INDUCED_SOURCE,
  INSTRUMENT_SOURCES,
  INSULATION_LIMITS,
  type Source,
  STATUTORY_LIMITS,
  TYPE_B_SOURCE,
  VOLT_DROP_LIMIT,
} from '../../published/index.ts';

/** A value the reference rests on, and where it comes from. */
export interface SourceRow {
  readonly value: string;
  readonly source: Source;
}

/** Every value from outside that the computed figures rest on. */
export const SOURCE_ROWS: readonly SourceRow[] = [
  {
    value: `Supply ${STATUTORY_LIMITS.low} to ${STATUTORY_LIMITS.high} V, 50 Hz`,
    source: STATUTORY_LIMITS.source,
  },
  { value: `Volt drop up to ${VOLT_DROP_LIMIT.volts} V`, source: VOLT_DROP_LIMIT.source },
  {
    value: `Extra-low voltage up to ${EXTRA_LOW_LIMITS.ac} V AC, ${EXTRA_LOW_LIMITS.dc} V DC`,
    source: EXTRA_LOW_LIMITS.source,
  },
  { value: 'External loop impedance by earthing', source: EXTERNAL_LOOP_OHMS.source },
  { value: 'Resistance of conductors', source: CONDUCTOR_SOURCE },
  { value: 'Capacitance between cores', source: CORE_CAPACITANCE_SOURCE },
  { value: 'Induced voltage on a floating core', source: INDUCED_SOURCE },
  { value: 'Fuse links, current they break', source: FUSE_BREAKS['BS 1362'].source },
  { value: 'Fuse links, current they carry', source: FUSE_CARRIES.source },
  { value: 'Small fuse links on boards', source: FUSE_BREAKS['IEC 60127'].source },
  { value: 'Circuit-breakers, type B', source: TYPE_B_SOURCE },
  { value: 'Two-pole tester', source: INSTRUMENT_SOURCES.tester },
  { value: 'Multimeter, high impedance', source: INSTRUMENT_SOURCES.multimeter },
  { value: 'Multimeter, low impedance', source: INSTRUMENT_SOURCES.low },
  { value: 'Insulation resistance limits', source: INSULATION_LIMITS.source },
  { value: 'Core colours of cables', source: CORE_SETS.source },
  { value: 'Letter codes of colours', source: COLOUR_SOURCE },
  ...WEIGHT_SOURCES,
];

/** What a source's standing means to a reader. */
export const STANDINGS: Readonly<Record<Source['standing'], string>> = {
  seen: 'read in a copy, quotation or textbook of the source',
  'from memory': 'recalled, not read again',
  derived: 'worked out here from the others',
  'common practice': 'known to the trade, no published source',
};
