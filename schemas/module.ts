import { z } from 'zod';
import { Aliases, Colour, FormerNames, Line, MemberName, Slug, TerminalName } from './names.ts';
import { Author, CheckedOn, Review } from './review.ts';
import { ARRANGEMENTS, CONTROLS, Features } from './system.ts';

/** What a module is in a composed system. */
export const MODULE_SLOTS = [
  'supply',
  'isolator',
  'box',
  'heat',
  'time',
  'control',
  'valve',
  'limit',
  'pump',
  'addition',
] as const;

/** Kinds of heat source by what must be seen of them; each has a demand table of its own. */
export const HEAT_KINDS = [
  'combi boiler',
  'system boiler',
  'heat-only boiler with pump overrun',
  'heat-only boiler without pump overrun',
] as const;

/** Conductors that every arrangement has by these names; a chain makes others. */
export const NAMED_NETS = [
  'live',
  'neutral',
  'earth',
  'boiler live',
  'call feed',
  'boiler call',
  'call pair 1',
  'call pair 2',
  'pump live',
  'pump neutral',
  'pump earth',
] as const;

/** What a contact asks for; `call` where that is the chain it is put in. */
export const SERVICES = ['heating', 'hot water', 'call'] as const;

const PartTerminal = z
  .string('a terminal of an item here is ITEM.terminal')
  .regex(
    /^[a-z0-9][a-z0-9 -]*\.[A-Za-z0-9][A-Za-z0-9 -]*$/,
    'a terminal of an item here is written ITEM.terminal, as in pump.overflow out',
  )
  .meta({ description: 'ITEM.terminal of this module, as in pump.overflow out' });

const PartMember = z
  .string()
  .regex(
    /^[a-z0-9][a-z0-9 -]*\.[a-z0-9][a-z0-9 -]*$/,
    'this is ITEM.name in lower case, as in pump.condensate high',
  )
  .meta({ description: 'ITEM.condition or ITEM.outcome of this module' });

/** When something is so, of conditions of the module’s items; `supply on` is one of its own. */
export type ModuleRule =
  | string
  | { not: ModuleRule }
  | { all: ModuleRule[] }
  | { any: ModuleRule[] };
const ModuleRule: z.ZodType<ModuleRule> = z.lazy(() =>
  z.union(
    [
      z.literal('supply on'),
      PartMember,
      z.strictObject({ not: ModuleRule }),
      z.strictObject({ all: z.array(ModuleRule).min(1) }),
      z.strictObject({ any: z.array(ModuleRule).min(1) }),
    ],
    { error: () => 'a rule is ITEM.condition, supply on, or exactly one of not, all, any' },
  ),
);

/** Where an item is wired: where its conductors are, unless it says otherwise. */
const Wired = z
  .enum(['at the boiler', 'at the box', 'by a box of its own'])
  .meta({ description: 'Where it is wired; absent: at the boiler where all it needs is there' });

const LeadCore = z.union(
  [
    TerminalName.transform((to) => ({ to, sleeve: undefined })),
    z.strictObject({ to: TerminalName, sleeve: Colour.optional() }),
  ],
  { error: () => 'a core of a lead is a terminal, or to and sleeve' },
);

/** One item that the module brings. */
const ModuleItem = z.strictObject({
  device: Slug,
  title: Line.optional().meta({ description: 'Its name here; the device’s title if absent' }),
  place: Line.meta({ description: 'Where it is found as a rule' }),
  placeAtCylinder: Line.optional().meta({
    description: 'Where it is found where there is a cylinder; its place if absent',
  }),
  placeOfFurther: Line.optional().meta({
    description:
      'Where it is found in the second circuit of heating and any after; its place if absent',
  }),
  length: z.number().positive().max(100).default(2).meta({ description: 'Length of its cable, m' }),
  size: z.number().positive().default(0.75).meta({ description: 'Size of its cable’s cores, mm²' }),
  lead: z
    .partialRecord(Colour, LeadCore)
    .optional()
    .meta({ description: 'Its own lead where it comes with one: core colour → terminal' }),
  wired: Wired.optional(),
});

const Contact = z.strictObject({
  from: PartTerminal.meta({ description: 'Live in to the contact' }),
  to: PartTerminal.meta({ description: 'Live out while it asks' }),
  rest: PartTerminal.optional().meta({ description: 'Live out while it does not ask' }),
});

/** What one way of wiring the module says beside or instead of what the module says. */
const Variant = z.strictObject({
  title: Line.optional().meta({ description: 'How it is called in the title of a system' }),
  cut: z
    .enum(['boiler live', 'boiler call'])
    .optional()
    .meta({ description: 'Net that it stands in, on the boiler’s side' }),
  feed: z
    .enum(['live', 'call feed'])
    .optional()
    .meta({ description: 'What feeds its contacts where they stand beside a call' }),
  stops: z
    .enum(['supply', 'call'])
    .optional()
    .meta({ description: 'What the boiler loses while the interlock is open' }),
  wired: z.record(MemberName, Wired).optional(),
  notes: z.array(Line).default([]),
});

/** What no module can say alone: how two of them are met together. */
const PairNote = z.strictObject({
  with: z
    .array(Slug)
    .min(1, 'name at least one module that it is met with')
    .meta({ description: 'Modules beside any of which it is said' }),
  when: z
    .array(MemberName)
    .min(1)
    .optional()
    .meta({ description: 'Own ways of wiring in which it is so; all if absent' }),
  note: Line,
});

const State = z.strictObject({
  title: Line,
  summary: Line.optional(),
  over: z
    .enum(['nothing', 'a call', 'a call that has ended'])
    .meta({ description: 'What else is asked for in it' }),
  set: z.array(PartMember).min(1, 'name at least one condition that is then so'),
  unset: z.array(PartMember).default([]),
  bring: Line.optional(),
  minutes: z.number().nonnegative().default(1),
  testable: z.boolean().default(true),
  readings: z.literal('none').optional(),
});

/** A part of an arrangement, described once: equipment, its place among the nets, what it does. */
export const Module = z.strictObject({
  title: Line,
  summary: Line,
  aliases: Aliases,
  formerly: FormerNames,
  slot: z.enum(MODULE_SLOTS, { error: () => `a slot is one of ${MODULE_SLOTS.join(', ')}` }),
  items: z
    .record(MemberName, ModuleItem)
    .refine((items) => Object.keys(items).length > 0, 'a module brings at least one item'),
  kind: z
    .enum(HEAT_KINDS)
    .optional()
    .meta({ description: 'Kind of heat source, whose demand table it is held to' }),
  ways: z.number().int().positive().optional().meta({ description: 'Numbered ways of a box' }),
  joins: z
    .partialRecord(z.enum(NAMED_NETS), z.array(PartTerminal).min(1))
    .default({})
    .meta({ description: 'Named net → terminals that lie on it' }),
  circuit: z
    .strictObject({ live: PartTerminal, neutral: PartTerminal, earth: PartTerminal })
    .optional()
    .meta({
      description: 'Terminals by which a supply gives its circuit and an isolator takes it',
    }),
  wires: z
    .record(MemberName, z.array(PartTerminal).min(2))
    .default({})
    .meta({ description: 'Conductors between its own items: name → terminals' }),
  contacts: z.partialRecord(z.enum(SERVICES), Contact).default({}),
  valve: z
    .strictObject({
      opens: PartTerminal.meta({ description: 'Live in that opens the circuit to the service' }),
      'end switch': Contact.omit({ rest: true }).optional(),
      shows: PartMember.optional().meta({
        description: 'Outcome by which it is seen open; that of its first item if absent',
      }),
      runs: PartMember.optional().meta({
        description: 'Outcome of a pump of its own that runs with it, unless open holds',
      }),
    })
    .optional()
    .meta({ description: 'A valve in the circuit of one service' }),
  shared: z
    .strictObject({
      heating: PartTerminal.optional().meta({
        description: 'Live in while heating calls; absent where heating calls the boiler itself',
      }),
      'hot water off': PartTerminal.optional(),
      'boiler call': PartTerminal.optional(),
      positions: z.strictObject({
        'hot water': PartMember,
        both: PartMember.optional(),
        heating: PartMember,
      }),
    })
    .optional()
    .meta({ description: 'A valve that heating and hot water share' }),
  relay: z
    .strictObject({ coil: PartTerminal, contact: Contact.omit({ rest: true }) })
    .optional()
    .meta({ description: 'A relay that ends the mains call and calls the boiler itself' }),
  through: z
    .array(PartTerminal)
    .length(2)
    .optional()
    .meta({ description: 'In and out of what stands in a net that a variant cuts' }),
  parallel: z
    .array(Contact.omit({ rest: true }))
    .min(1)
    .optional()
    .meta({ description: 'Contacts in series that call for heating beside its controls' }),
  rank: z.number().int().default(0).meta({
    description: 'Order of several in one net: the highest stands nearest the boiler',
  }),
  variants: z.record(MemberName, Variant).default({}),
  stands: z
    .partialRecord(z.enum(SERVICES), ModuleRule)
    .default({})
    .meta({ description: 'When it lets its demand stand, as a person would say it' }),
  open: ModuleRule.optional().meta({ description: 'When an interlock or a limit is open' }),
  sees: z
    .record(PartMember, ModuleRule)
    .default({})
    .meta({ description: 'Outcome → when it must be seen, whatever the wiring' }),
  bring: z
    .partialRecord(z.enum(SERVICES), z.strictObject({ on: Line, off: Line }))
    .default({})
    .meta({ description: 'How an engineer brings its demand about, and takes it away' }),
  states: z.record(Slug, State).default({}),
  pairs: z
    .array(PairNote)
    .default([])
    .meta({ description: 'What is said where it stands together with another module' }),
  tells: Line.optional().meta({
    description:
      'What its kind of heat source is told by, before it is asked how it is called; said of the first of a kind',
  }),
  arrangement: z.enum(ARRANGEMENTS).optional(),
  control: z.enum(CONTROLS).optional(),
  features: Features.default([]),
  recognise: z.array(Line).default([]).meta({ description: 'How it is recognised by looking' }),
  otherwise: z.array(Line).default([]).meta({ description: 'How its absence is recognised' }),
  notes: z.array(Line).default([]),
  cautions: z.array(Line).default([]),
  checked: CheckedOn,
  author: Author,
  review: Review.optional(),
});
export type Module = z.infer<typeof Module>;
