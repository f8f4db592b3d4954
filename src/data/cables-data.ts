import { z } from 'zod';
import {
  CONDUCTOR_SOURCE,
  CONTINUITY_SOURCE,
  DISCONNECTION_SOURCE,
  EXTERNAL_LOOP_OHMS,
  FLEX_AMBIENT_SOURCE,
  FUSE_CARRIES,
  FUSE_ZONE_SOURCE,
  MARKING_SOURCE,
  OVERLOAD_SOURCE,
  type Source,
  VOLT_DROP_LIMIT,
} from '../published/index.ts';
import type { CablesAndProtection, Resistances } from '../wiring/index.ts';

const number = z.number();
const text = z.string();
const mode = text
  .nullable()
  .meta({ description: 'Mode of the worst value; null where none flows' });
const current = number.meta({ description: 'A' });
const yes = z.boolean();

const SourceData = z.strictObject({
  cite: text,
  standing: z.enum(['seen', 'from memory', 'derived', 'common practice']),
});

const Device = z.strictObject({
  id: text.meta({ description: 'Branch id' }),
  title: text,
  kind: z.enum(['fuse', 'breaker']),
  rating: current,
  standard: text.nullable(),
});

const CoreData = z.strictObject({
  id: text,
  colour: text,
  sleeve: text.nullable(),
  carries: z.enum(['line', 'neutral', 'earth', 'extra-low']),
  permanent: yes.meta({ description: 'A live that stands whatever the controls do' }),
  amps: current,
  worstMode: mode,
  marking: z.strictObject({
    wanted: text.nullable().meta({ description: 'Colour its ends have to show' }),
    verdict: z.enum(['right', 'needed', 'usual', 'forbidden']),
  }),
});

const CableData = z.strictObject({
  cable: text,
  kind: text,
  size: number.meta({ description: 'mm²' }),
  length: number.meta({ description: 'm' }),
  between: z.tuple([text, text]),
  needed: number.meta({ description: 'Cores in use and cores lacking' }),
  there: number.meta({ description: 'Cores in use and spare cores' }),
  lacking: z.array(text).meta({ description: 'Terminals it ought to carry and has no core for' }),
  spare: z.array(text),
  mixed: yes.meta({ description: 'Mains and extra-low voltage side by side' }),
  amps: current,
  worstMode: mode,
  capacity: number.nullable().meta({ description: 'A, from the table in source' }),
  drop: number.nullable().meta({ description: 'V, line and return, from the table in source' }),
  protection: Device.nullable().meta({ description: 'Nearest fuse or breaker before it' }),
  limiter: Device.nullable().meta({ description: 'Fuse behind it that limits all it feeds' }),
  protectedWell: yes.nullable(),
  warmest: number.nullable().meta({ description: '°C up to which a flex bears its protection' }),
  source: SourceData.nullable(),
  cores: z.array(CoreData),
});

const ResistancesData = {
  r1: number.meta({ description: 'Ω of the line’s cores, copper at 20 °C' }),
  r2: number.meta({ description: 'Ω of the protective conductor’s cores, copper at 20 °C' }),
};

/** Cables and protection of one system, with the source of every published value. */
export const CablesData = z.strictObject({
  cables: z.array(CableData),
  fuses: z.array(
    z.strictObject({
      device: Device,
      amps: current,
      worstMode: mode,
      carries: number.nullable().meta({ description: 'A it must carry for half an hour' }),
      breaks: number.meta({ description: 'A it must break, from the standard in source' }),
      source: SourceData,
      blownIn: text.nullable().meta({ description: 'First mode that breaks it' }),
      within: yes,
    }),
  ),
  faults: z
    .array(
      z.strictObject({
        item: text,
        point: text,
        mode: text,
        loop: number.meta({ description: 'Ω, copper at 70 °C' }),
        amps: number.meta({ description: 'Least prospective fault current, A' }),
        protection: Device,
        most: number.nullable().meta({ description: 'Ω at most for 0.4 s, from source' }),
        seconds: number.nullable().meta({ description: '0.4, 5, or null: neither' }),
        zoneSeconds: number.nullable().meta({ description: 's at most by the link’s zone' }),
        source: SourceData.nullable(),
      }),
    )
    .meta({ description: 'Fault to earth at the worst line terminal of each item' }),
  drops: z.array(
    z.strictObject({
      item: text,
      line: text,
      neutral: text,
      volts: number,
      worstMode: mode,
      within: yes,
    }),
  ),
  continuity: z
    .array(
      z.strictObject({
        item: text,
        line: text,
        earth: text,
        through: z
          .array(text)
          .meta({ description: 'Contacts in the line, closed for the test, by branch id' }),
        lineCores: z.array(text).meta({ description: 'Cores of the line, from the supply on' }),
        earthCores: z.array(text),
        origin: z.strictObject(ResistancesData),
        isolator: z.strictObject({ item: text, ...ResistancesData }).nullable(),
      }),
    )
    .meta({ description: 'R1 + R2 of each item, dead: from the supply, and from the isolator' }),
  limits: z.strictObject({ voltDrop: number.meta({ description: 'V' }) }),
  sources: z
    .record(text, SourceData)
    .meta({ description: 'Of the values that stand beside no source of their own' }),
});
export type CablesData = z.infer<typeof CablesData>;

const SOURCES: Readonly<Record<string, Source>> = {
  'conductor resistance': CONDUCTOR_SOURCE,
  'R1 + R2': CONTINUITY_SOURCE,
  'external loop impedance': EXTERNAL_LOOP_OHMS.source,
  'disconnection time': DISCONNECTION_SOURCE,
  'current, rating and capacity': OVERLOAD_SOURCE,
  'ambient factors': FLEX_AMBIENT_SOURCE,
  'current a fuse link carries': FUSE_CARRIES.source,
  'zone of a fuse link': FUSE_ZONE_SOURCE,
  'volt drop limit': VOLT_DROP_LIMIT.source,
  marking: MARKING_SOURCE,
};

/** The open form of cables and protection. */
export function cablesData({
  cables,
  fuses,
  faults,
  drops,
  continuity,
}: CablesAndProtection): CablesData {
  return {
    cables: cables.map((cable) => ({
      ...cable,
      between: [...cable.between],
      lacking: [...cable.lacking],
      spare: [...cable.spare],
      amps: significant(cable.amps),
      drop: cable.drop === null ? null : significant(cable.drop),
      cores: cable.cores.map((core) => ({ ...core, amps: significant(core.amps) })),
    })),
    fuses: fuses.map((fuse) => ({
      ...fuse,
      amps: significant(fuse.amps),
      carries: fuse.carries === null ? null : significant(fuse.carries),
      breaks: significant(fuse.breaks),
    })),
    faults: faults.map((fault) => ({
      ...fault,
      loop: significant(fault.loop),
      amps: significant(fault.amps),
    })),
    drops: drops.map((drop) => ({ ...drop, volts: significant(drop.volts) })),
    continuity: continuity.map((one) => ({
      ...one,
      through: [...one.through],
      lineCores: [...one.lineCores],
      earthCores: [...one.earthCores],
      origin: rounded(one.origin),
      isolator: one.isolator && { item: one.isolator.item, ...rounded(one.isolator) },
    })),
    limits: { voltDrop: VOLT_DROP_LIMIT.volts },
    sources: { ...SOURCES },
  };
}

const rounded = ({ r1, r2 }: Resistances): { r1: number; r2: number } => ({
  r1: significant(r1),
  r2: significant(r2),
});

/** Nine significant figures: more than the agreement the solver is held to. */
const significant = (value: number): number => Number(value.toPrecision(9));
