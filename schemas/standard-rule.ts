import { z } from 'zod';
import { CONDUCTOR_SIZES } from '../src/published/conductors.ts';
import { FUSE_STANDARDS } from '../src/published/protection.ts';
import { DEMANDS } from './demands.ts';
import { Device } from './device.ts';
import { Colour, MemberName, Slug } from './names.ts';

const Families = z.array(Device.shape.family).min(1, 'name at least one family');
const Colours = z.array(Colour).min(1, 'name at least one colour');
const Names = z.array(MemberName).min(1, 'name at least one');
const Devices = z.array(Slug).min(1, 'name at least one device');

const ConductorSize = z.union(
  CONDUCTOR_SIZES.map((size) => z.literal(size)),
  { error: () => `a size is one of ${CONDUCTOR_SIZES.join(', ')} mm² (IEC 60228)` },
);

/** Every mains load is fed through a fuse of the standard and a rating allowed. */
const FuseRating = z.strictObject({
  check: z.literal('fuse rating'),
  standard: z.enum(FUSE_STANDARDS).default('BS 1362').meta({ description: 'Kind of fuse link' }),
  ratings: z
    .array(z.number().positive().max(13))
    .min(1, 'allow at least one rating')
    .meta({ description: 'Rated currents allowed, A' }),
  families: Families.default(['isolation']).meta({
    description: 'Families whose fuses are meant',
  }),
});

/** No conductor is thinner than allowed. */
const ConductorSizes = z.strictObject({
  check: z.literal('minimum conductor size'),
  smallest: ConductorSize.meta({ description: 'Least cross-section of live conductors, mm²' }),
  earth: ConductorSize.optional().meta({
    description: 'Least cross-section of protective conductors, mm²; as live ones if absent',
  }),
  extraLow: ConductorSize.optional().meta({
    description:
      'Least cross-section in cables of extra-low voltage alone, mm²; as others if absent',
  }),
});

/** One isolator switched off leaves every conductor behind it dead, in every mode. */
const Isolation = z.strictObject({
  check: z.literal('single point of isolation'),
  doublePole: z.boolean().default(true).meta({
    description: 'Whether it must open the neutral too',
  }),
});

/** A permanent live stays whatever the controls do. */
const PermanentLive = z.strictObject({
  check: z.literal('permanent live not through a control'),
  families: Families.default(['boiler', 'receiver']).meta({
    description: 'Families whose own supply is meant',
  }),
  controls: Families.default(['control', 'receiver', 'sensor', 'valve']).meta({
    description: 'Families whose contacts may not stand in it',
  }),
});

/** An overflow switch that opens puts the heat out, in every mode. */
const Overflow = z.strictObject({
  check: z.literal('overflow interlock'),
  contact: MemberName.default('overflow switch').meta({
    description: 'Element of a device that is the overflow switch',
  }),
  stops: Names.default(['burner']).meta({
    description: 'Outcomes of boilers and heaters that must end',
  }),
});

/** Nothing but an isolator opens a neutral. */
const SwitchedNeutral = z.strictObject({
  check: z.literal('no switched neutral'),
  families: Families.default(['isolation', 'supply']).meta({
    description: 'Families that may open the neutral together with the line',
  }),
});

/** Green-yellow is a protective conductor, and a protective conductor is green-yellow. */
const GreenYellow = z.strictObject({
  check: z.literal('green-yellow only as protective conductor'),
});

/** A blue core that is live in some mode is marked as a line conductor. */
const BlueSleeved = z.strictObject({
  check: z.literal('blue core as a live sleeved'),
  core: Colour.default('BU').meta({ description: 'Core colour meant' }),
  sleeves: Colours.default(['BN']).meta({ description: 'Markings that make it good' }),
});

/** Every class I item is joined to the supply's earth by conductors alone. */
const ClassOne = z.strictObject({
  check: z.literal('class I earthed'),
  most: z.number().positive().default(1).meta({
    description: 'Greatest resistance from its earth terminal to the supply’s, Ω',
  }),
});

/** Terminals made for extra-low voltage never stand at more than the limit. */
const NoMains = z.strictObject({
  check: z.literal('no mains on extra-low voltage'),
  most: z.number().positive().max(50).default(50).meta({
    description: 'Greatest alternating voltage to earth, V',
  }),
});

/** Each conductor is of a colour, or sleeved in one, that says what it does. */
const CoreColours = z.strictObject({
  check: z.literal('core colours'),
  kinds: z
    .array(z.enum(['flex', 'twin and earth', 'fixed lead', 'single']))
    .min(1, 'name at least one kind of cable')
    .default(['flex', 'twin and earth', 'single'])
    .meta({ description: 'Kinds of cable meant; the lead of a device keeps its maker’s colours' }),
  permanent: Colours.meta({ description: 'Colours of a conductor live in every working mode' }),
  switched: Colours.meta({ description: 'Colours of a conductor live in some modes' }),
  neutral: Colours.meta({ description: 'Colours of a neutral' }),
  call: Colours.optional().meta({
    description: 'Colours of an extra-low-voltage call or bus; any if absent',
  }),
});

/** Only devices of the list are fitted. */
const Approved = z.strictObject({
  check: z.literal('approved devices'),
  devices: Devices.meta({ description: 'Devices allowed' }),
  families: Families.optional().meta({
    description: 'Families the list is about; every item if absent',
  }),
});

/** A safety cut-out that opens shuts what brings the heat, and stays open until reset. */
const CutOut = z.strictObject({
  check: z.literal('safety cut-out'),
  devices: Devices.meta({ description: 'Devices that are the cut-out' }),
  wants: z
    .enum(DEMANDS, { error: () => `a demand is one of ${DEMANDS.join(', ')}` })
    .optional()
    .meta({
      description: 'Demand that alone is made while it is proved; each mode’s own if absent',
    }),
  stops: Names.default(['open', 'burner']).meta({
    description: 'Outcomes of valves, boilers and heaters that must end',
  }),
  latches: z.boolean().default(true).meta({
    description: 'Whether it must stay open until a person resets it',
  }),
  needed: z.boolean().default(false).meta({
    description: 'Whether a system without one does not meet the standard',
  }),
});

/** With no demand the boiler and the pump are off. */
const Interlock = z.strictObject({
  check: z.literal('system interlock'),
  stops: Names.default(['burner', 'pump', 'running']).meta({
    description: 'Outcomes of boilers, heaters and pumps that must then be off',
  }),
});

/** Enough cores reach a device. */
const CoreCount = z.strictObject({
  check: z.literal('cable core count'),
  device: Slug.meta({ description: 'Device meant' }),
  least: z.number().int().positive().max(20).meta({
    description: 'Least number of cores joined to its terminals',
  }),
});

/** An earth fault at any item opens its fuse or breaker in time. */
const EarthFault = z.strictObject({
  check: z.literal('earth fault cleared'),
  share: z.number().gt(0).max(1).default(1).meta({
    description: 'Share of the published greatest loop impedance that may be used up',
  }),
});

/** Every cable carries no more than its fuse lets through, and stands what that is. */
const CableProtected = z.strictObject({ check: z.literal('cable protected') });

/** Cables lose no more than a share of the voltage on the way to any item. */
const VoltDrop = z.strictObject({
  check: z.literal('volt drop'),
  most: z.number().positive().max(5).default(5).meta({
    description: 'Greatest volt drop, per cent of the nominal voltage',
  }),
});

/** No cable holds mains and extra-low voltage together. */
const ExtraLowApart = z.strictObject({ check: z.literal('extra-low voltage apart') });

const RULES = [
  FuseRating,
  ConductorSizes,
  Isolation,
  PermanentLive,
  Overflow,
  SwitchedNeutral,
  GreenYellow,
  BlueSleeved,
  ClassOne,
  NoMains,
  CoreColours,
  Approved,
  CutOut,
  Interlock,
  CoreCount,
  EarthFault,
  CableProtected,
  VoltDrop,
  ExtraLowApart,
] as const;

/** Every check a standard can name. */
export const CHECK_NAMES = RULES.map(({ shape }) => shape.check.value);

/** The check a house standard names, with its limits. */
export const StandardRule = z.discriminatedUnion('check', RULES, {
  error: () => 'there is no check of that name',
});
export type StandardRule = z.infer<typeof StandardRule>;
export type CheckName = StandardRule['check'];
/** The limits of one check. */
export type RuleOf<C extends CheckName> = Extract<StandardRule, { check: C }>;
