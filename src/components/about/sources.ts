import { SHARE_SOURCES } from '../../diagnosis/index.ts';
import {
  BREAKER_LOOP_SOURCE,
  COLOUR_SOURCE,
  CONDUCTOR_SOURCE,
  CONTROLS_FUSE_SOURCE,
  CORE_CAPACITANCE_SOURCE,
  CORE_SETS,
  DISCONNECTION_SOURCE,
  EARTH_AT_POINTS_SOURCE,
  EMERGENCY_ACTS_SOURCE,
  EMERGENCY_NUMBERS,
  EXTERNAL_LOOP_OHMS,
  EXTRA_LOW_LIMITS,
  FLEX_AMBIENT_SOURCE,
  FLEX_SOURCE,
  FUSE_BREAKS,
  FUSE_CARRIES,
  FUSE_LOOP_SOURCE,
  FUSE_ZONE_SOURCE,
  INDUCED_SOURCE,
  INSTRUMENT_SOURCES,
  INSULATION_LIMITS,
  LPG_SOURCE,
  MARKING_SOURCE,
  NEUTRAL_TO_EARTH_LIMIT,
  OVERLOAD_SOURCE,
  SEGREGATION_SOURCE,
  SINGLE_CORE_SOURCE,
  type Source,
  STATUTORY_LIMITS,
  TWIN_AND_EARTH_SOURCE,
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
  { value: 'MCBs, type B', source: TYPE_B_SOURCE },
  { value: 'Rating and volt drop of flex', source: FLEX_SOURCE },
  { value: 'The same, flat twin and earth', source: TWIN_AND_EARTH_SOURCE },
  { value: 'The same, single cores', source: SINGLE_CORE_SOURCE },
  { value: 'Flex in warm places', source: FLEX_AMBIENT_SOURCE },
  { value: 'Current, rating and capacity', source: OVERLOAD_SOURCE },
  { value: 'Disconnection time', source: DISCONNECTION_SOURCE },
  { value: 'Loop impedance behind fuse links', source: FUSE_LOOP_SOURCE },
  { value: 'Loop impedance behind MCBs', source: BREAKER_LOOP_SOURCE },
  { value: 'Time–current zones of fuse links', source: FUSE_ZONE_SOURCE },
  { value: 'Marking of cores', source: MARKING_SOURCE },
  { value: 'Extra-low voltage beside mains', source: SEGREGATION_SOURCE },
  { value: 'Earth at each point', source: EARTH_AT_POINTS_SOURCE },
  { value: 'Fuse of heating controls', source: CONTROLS_FUSE_SOURCE },
  { value: 'Two-pole tester', source: INSTRUMENT_SOURCES.tester },
  { value: 'Multimeter, high impedance', source: INSTRUMENT_SOURCES.multimeter },
  { value: 'Multimeter, low impedance', source: INSTRUMENT_SOURCES.low },
  { value: 'Insulation resistance limits', source: INSULATION_LIMITS.source },
  { value: 'Neutral to earth at a boiler that fires', source: NEUTRAL_TO_EARTH_LIMIT.source },
  { value: 'Core colours of cables', source: CORE_SETS.source },
  { value: 'Letter codes of colours', source: COLOUR_SOURCE },
  ...Object.values(EMERGENCY_NUMBERS).map(({ number, source }) => ({
    value: `Telephone ${number}`,
    source,
  })),
  { value: 'Gas, carbon monoxide, dangerous appliance', source: EMERGENCY_ACTS_SOURCE },
  { value: 'LPG', source: LPG_SOURCE },
  ...SHARE_SOURCES,
];

/** What a source's standing means to a reader. */
export const STANDINGS: Readonly<Record<Source['standing'], string>> = {
  seen: 'read in a copy, quotation or textbook of the source',
  'from memory': 'recalled, not read again',
  derived: 'worked out here from the others',
  'common practice': 'known to the trade, no published source',
};
