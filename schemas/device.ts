import { z } from 'zod';
import { DEMANDS } from './demands.ts';
import { Between, Element } from './element.ts';
import { Logic } from './logic.ts';
import { Aliases, FormerNames, Line, MemberName, Slug, TerminalName } from './names.ts';
import { Opening } from './opening.ts';
import { Author, Review } from './review.ts';

/**
 * Parts a terminal can play for the rest of a system, so that one device can take another's
 * place whatever the two call their terminals. A terminal that plays none of these is matched
 * by its own name.
 */
export const PARTS = [
  'supply line',
  'supply neutral',
  'heating feed',
  'heating call',
  'heating rest',
  'hot water feed',
  'hot water call',
  'hot water rest',
  'valve line',
  'valve neutral',
  'end switch feed',
  'end switch call',
  'satisfied in',
  'pump line',
  'pump neutral',
] as const;

/** A connection point of a device. */
export const Terminal = z.strictObject({
  function: Line.meta({ description: 'What it is for, in a few words' }),
  voltage: z
    .enum(['mains', 'extra-low'])
    .default('mains')
    .meta({ description: 'Highest voltage class it is made for' }),
  carries: z.enum(['line', 'switched', 'neutral', 'earth', 'call']).default('switched').meta({
    description:
      'line: permanent live; switched: live only sometimes; neutral; earth: protective conductor; call: one side of an extra-low-voltage call or bus',
  }),
  does: z
    .array(z.enum(PARTS, { error: () => `a part a terminal plays is one of ${PARTS.join(', ')}` }))
    .default([])
    .meta({
      description:
        'Parts it plays when this device replaces another; feed: live in to a contact, call: live out on demand, rest: live out without demand; satisfied in: live in while hot water is not wanted',
    }),
  aliases: Aliases,
});
export type Terminal = z.infer<typeof Terminal>;

/** Causes of a call-out that are no failure of a part: a condition is simply not as usual. */
export const CAUSES = [
  'flat cells',
  'lost pairing',
  'latched lever',
  'low water pressure',
  'no gas',
  'frozen condensate',
  'MCB down',
] as const;
export type Cause = (typeof CAUSES)[number];

/** Something the world sets in a device. */
const Condition = z
  .strictObject({
    title: Line.meta({ description: 'What is so when it is true, as in "Room asks for heat"' }),
    otherwise: Line.optional().meta({
      description: 'What is so when it is not true, as in "Control off its wall plate"',
    }),
    usual: z.boolean().default(false).meta({ description: 'Its value unless a mode sets it' }),
    wants: z
      .enum(DEMANDS, { error: () => `a condition wants one of ${DEMANDS.join(', ')}` })
      .optional()
      .meta({
        description:
          'What it asks for. House standards know a demand by this, whatever its name; and the same demand is known under another device’s name for it',
      }),
    timed: z.boolean().optional().meta({
      description:
        'Whether a clock alone decides it, as a programmer’s channel: it lets its thermostat ask, and is no demand while that is satisfied',
    }),
    cause: z.enum(CAUSES).optional().meta({
      description:
        'Which cause of a call-out it is where it is not as usual: one that is put right without opening anything',
    }),
    presence: z.boolean().optional().meta({
      description:
        'Whether it says that the device is in its place, as in "Room stat on its backplate": where it is false nothing inside the device conducts, and its terminals are bare points',
    }),
  })
  .refine(({ presence, usual }) => !presence || usual, {
    path: ['usual'],
    message: 'a device is in its place as a rule: a condition of its presence is usually true',
  })
  .refine(({ timed, wants }) => !timed || wants !== undefined, {
    path: ['timed'],
    message: 'a clock asks for something: say what this condition wants',
  });

/** A wire link a device is delivered with, between two of its terminals. */
const DeliveredLink = z.strictObject({ between: Between, why: Line.optional() });

/** Positions a device keeps: a valve, a cut-out that latches. */
const Mechanism = z.strictObject({
  positions: z.array(MemberName).min(2, 'a mechanism has at least two positions'),
  rest: MemberName.meta({ description: 'Position from new or with no power ever applied' }),
  moves: z
    .array(z.strictObject({ from: MemberName, to: MemberName, when: Logic }))
    .min(1)
    .meta({ description: 'The first move from the present position whose rule holds is made' }),
});

/** What a person sees, hears or feels without an instrument. */
const Outcome = z.strictObject({
  title: Line.meta({ description: 'As a person would say it, as in "Burner lit"' }),
  otherwise: Line.optional().meta({
    description: 'The same when it is not so, as in "Burner out"',
  }),
  when: Logic,
  by: z.enum(['sight', 'hearing', 'touch']).default('sight'),
  at: Line.optional().meta({
    description: 'Where one looks, where that is not at the item, as in "At the gas meter"',
  }),
  care: Line.optional().meta({
    description:
      'What to mind before looking, where that is not safe of itself; a caution at the act',
  }),
});

/** A kind of equipment: its terminals and what lies between them. */
export const Device = z.strictObject({
  title: Line,
  summary: Line,
  aliases: Aliases,
  formerly: FormerNames,
  extends: Slug.optional().meta({
    description: 'Device whose terminals and elements it starts from',
  }),
  letter: z
    .enum(['A', 'B', 'E', 'F', 'G', 'K', 'M', 'P', 'Q', 'S', 'T', 'X'])
    .meta({ description: 'Class letter of IEC 81346-2 for its reference designation' }),
  family: z
    .enum([
      'supply',
      'isolation',
      'boiler',
      'control',
      'receiver',
      'sensor',
      'safety',
      'valve',
      'pump',
      'heater',
      'wiring centre',
    ])
    .meta({ description: 'Group it is listed under' }),
  protection: z
    .enum(['class I', 'class II', 'class III'])
    .default('class II')
    .meta({ description: 'Protection against electric shock; class I needs its earth' }),
  terminals: z.record(TerminalName, Terminal).default({}),
  nodes: z.array(TerminalName).default([]).meta({ description: 'Internal nodes, not reachable' }),
  elements: z.record(MemberName, Element).default({}),
  links: z
    .array(DeliveredLink)
    .default([])
    .meta({ description: 'Wire links it is delivered with; each stays or comes out' }),
  conditions: z.record(MemberName, Condition).default({}),
  mechanism: Mechanism.optional(),
  outcomes: z.record(MemberName, Outcome).default({}),
  openings: z
    .record(MemberName, Opening)
    .refine((openings) => Object.keys(openings).length > 0, 'say at least one way of getting at it')
    .refine(
      (openings) => Object.values(openings).filter(({ shows }) => !shows).length < 2,
      'two openings leave out which terminals they show; at most one may',
    )
    .meta({ description: 'Ways of getting at its terminals and fuses, by name' }),
  cautions: z.array(Line).default([]),
  author: Author,
  review: Review.optional(),
});
export type Device = z.infer<typeof Device>;
export type DeviceInput = z.input<typeof Device>;
