import { z } from 'zod';
import { CONDUCTOR_SIZES } from '../src/published/conductors.ts';
import { Composition } from './composition.ts';
import {
  Aliases,
  CableReference,
  CalendarDate,
  Colour,
  FormerNames,
  ItemMember,
  ItemReference,
  Line,
  MemberName,
  ModeName,
  Slug,
  TerminalName,
  TerminalReference,
} from './names.ts';
import { Author, CheckedOn, Review } from './review.ts';

/** One device in this system. */
const Item = z.strictObject({
  device: Slug,
  title: Line.optional().meta({ description: 'Its name here; the device’s title if absent' }),
  place: Line.meta({ description: 'Where to find it' }),
  labels: z
    .record(TerminalName, Line)
    .default({})
    .meta({ description: 'What a numbered terminal serves here, as in a wiring centre' }),
  ratings: z
    .record(MemberName, z.number().positive())
    .default({})
    .meta({ description: 'Rated current of a fuse or breaker element here, A' }),
});

const size = `a size is one of ${CONDUCTOR_SIZES.join(', ')} mm² (IEC 60228)`;
const ConductorSize = z.union(
  CONDUCTOR_SIZES.map((s) => z.literal(s)),
  { error: () => size },
);

/** The two terminals a core joins, or the same with the marking its ends need. */
const Ends = z
  .array(TerminalReference, 'a core joins two terminals, as in [X1.3, A1.L]')
  .length(2, 'a core joins exactly two terminals')
  .transform((ends) => ends as [string, string]);
const Core = z.union(
  [
    Ends.transform((ends) => ({ ends, sleeve: undefined })),
    z.strictObject({ ends: Ends, sleeve: Colour.optional() }),
  ],
  { error: () => 'a core is [ITEM.terminal, ITEM.terminal], or ends and sleeve' },
);

/** A cable between two places. The first terminal of every core is at the same item. */
const Cable = z.strictObject({
  kind: z.enum(['flex', 'twin and earth', 'fixed lead', 'single']).meta({
    description:
      'flex: flexible cord; twin and earth: flat cable with bare protective conductor; fixed lead: the lead a device comes with; single: single-core wires',
  }),
  size: ConductorSize.meta({ description: 'Cross-section of its cores, mm²' }),
  earthSize: ConductorSize.optional().meta({
    description: 'Cross-section of the protective conductor where it is smaller, mm²',
  }),
  length: z.number().positive().max(100).meta({ description: 'Length, m' }),
  cores: z
    .partialRecord(Colour, Core)
    .meta({ description: 'Core colour → the two terminals it joins' }),
  spare: z.array(Colour).default([]).meta({ description: 'Cores cut back and joined to nothing' }),
});
export type Cable = z.infer<typeof Cable>;

/** A short wire between two terminals of one item. */
const Link = z.strictObject({ between: Ends, why: Line.optional() });

/** A named set of conditions, and what the author expects a person to see in it. */
const Mode = z.strictObject({
  title: Line,
  summary: Line.optional(),
  after: MemberName.or(Slug)
    .optional()
    .meta({ description: 'Mode the system comes from; valves and cut-outs keep its positions' }),
  conditions: z.record(ItemMember, z.boolean()).default({}),
  bring: Line.optional().meta({
    description:
      'How an engineer brings it about, as in "Turn the room control well above room temperature"',
  }),
  minutes: z
    .number()
    .nonnegative()
    .default(1)
    .meta({ description: 'Time it takes to bring about, minutes' }),
  testable: z.boolean().default(true).meta({
    description:
      'false where nobody can bring it about safely on a call-out; no test then asks for it',
  }),
  readings: z.literal('none').optional().meta({
    description:
      'none where it is looked at only: it cannot stand with a box open and the supply on, as while water is poured',
  }),
  expect: z
    .record(ItemMember, z.boolean())
    .meta({ description: 'Outcomes as they must be; the build simulates the mode and compares' }),
});
export type Mode = z.infer<typeof Mode>;

/** A house standard that this system does not meet, for a reason and a time. */
const StandardException = z
  .strictObject({
    standard: Slug.meta({ description: 'House standard, by its file name' }),
    at: z
      .array(Line)
      .min(1, 'name a conductor or an item, or leave at out')
      .optional()
      .meta({ description: 'Conductors (W3.BU), cables or items it covers; all if absent' }),
    why: Line.meta({ description: 'Why the standard is not met here' }),
    by: Line.meta({ description: 'Who allows it' }),
    from: CalendarDate.meta({ description: 'First day it holds, YYYY-MM-DD' }),
    until: CalendarDate.meta({ description: 'Last day it holds, YYYY-MM-DD' }),
  })
  .refine(({ from, until }) => from <= until, {
    path: ['until'],
    error: 'an exception does not end before it begins',
  });
export type StandardException = z.infer<typeof StandardException>;

/** Facets that readers choose a system by. */
export const ARRANGEMENTS = ['combi', 'system', 'heat-only'] as const;
export const CONTROLS = [
  'two-wire control',
  'three-wire control',
  'wireless control',
  'volt-free control',
  'programmer and thermostats',
] as const;
export const FEATURES = [
  'condensate pump',
  'unvented cylinder',
  'two-port valves',
  'mid-position valve',
  'wiring centre',
  'pump overrun',
  'extra-low voltage',
] as const;

/** Name of a feature: one of the reference's, or of those that a firm's settings add. */
export const FeatureName = z
  .string('a feature is text')
  .regex(/^[a-z0-9]+([ -][a-z0-9]+)*$/, 'a feature is words in small letters, as in buffer vessel')
  .max(40, 'a feature has at most 40 characters');
/** Features of an entry; which there are the cross checks say, for a firm adds its own. */
export const Features = z.array(FeatureName.meta({ enum: [...FEATURES] }));

/** An arrangement of equipment and cables: the entry an engineer opens. */
export const System = z.strictObject({
  title: Line,
  summary: Line,
  aliases: Aliases,
  formerly: FormerNames,
  compose: Composition.optional().meta({
    description:
      'Modules that it is composed from: items, cables, modes and words come from them, and what stands here is laid over that',
  }),
  arrangement: z.enum(ARRANGEMENTS),
  control: z.enum(CONTROLS),
  features: Features.default([]),
  recognise: z
    .array(Line)
    .min(1, 'say at least one thing by which an engineer recognises this arrangement')
    .meta({
      description: 'What to look for to know that this arrangement is the one in front of you',
    }),
  items: z.record(ItemReference, Item),
  cables: z.record(CableReference, Cable),
  links: z.array(Link).default([]),
  modes: z.record(ModeName, Mode),
  notes: z.array(Line).default([]),
  cautions: z.array(Line).default([]),
  exceptions: z.array(StandardException).default([]).meta({
    description: 'House standards that this system does not meet, with reason and dates',
  }),
  checked: CheckedOn,
  version: z
    .number()
    .int()
    .positive()
    .meta({ description: 'Counts up with every change of wiring' }),
  author: Author,
  review: Review.optional(),
});
export type System = z.infer<typeof System>;
export type SystemInput = z.input<typeof System>;
