import { z } from 'zod';
import { FUSE_STANDARDS } from '../src/published/protection.ts';
import { Logic } from './logic.ts';
import { Line, MemberName, TerminalName } from './names.ts';

/** Two different ends of an element: terminals or internal nodes of the same device. */
export const Between = z
  .array(TerminalName, 'an element lies between two terminals or nodes, as in [L, N]')
  .length(2, 'an element lies between exactly two terminals or nodes')
  .refine(([a, b]) => a !== b, 'an element needs two different ends')
  .transform((ends) => ends as [string, string])
  .meta({ description: 'The two terminals or internal nodes it lies between' });

const Name = Line.optional().meta({
  description: 'What a reader calls it; the element’s own name if absent',
});

/** A permanent join inside the device. */
const Link = z.strictObject({ kind: z.literal('link'), between: Between, name: Name });

/** A switch: closed when its rule says so, else open. */
const Contact = z.strictObject({
  kind: z.literal('contact'),
  between: Between,
  name: Name,
  closed: Logic.meta({ description: 'When it is closed' }),
});

/** A fuse link in its carrier. */
const Fuse = z.strictObject({
  kind: z.literal('fuse'),
  between: Between,
  name: Name,
  rating: z.number().positive().max(13).meta({ description: 'Rated current, A' }),
  standard: z.enum(FUSE_STANDARDS).default('BS 1362').meta({
    description:
      'BS 1362 for a fused connection unit or plug; IEC 60127 for a small glass or ceramic link on a board',
  }),
});

/** A circuit-breaker to EN 60898, type B; with `residual` an RCBO to EN 61009. */
const Breaker = z.strictObject({
  kind: z.literal('breaker'),
  between: Between,
  name: Name,
  rating: z.number().positive().meta({ description: 'Rated current, A' }),
  residual: z
    .strictObject({
      amps: z.number().positive().max(0.5).meta({ description: 'Rated residual current, A' }),
      neutral: MemberName.meta({
        description:
          'Link through which the neutral of the same circuit passes it, written from the supply to the load as the breaker is',
      }),
    })
    .optional()
    .meta({
      description:
        'That it trips, too, when line and neutral current differ by its rated residual current: an RCBO. It opens the line only',
    }),
});

/** Where a winding or input operates and lets go, as fractions of its rated voltage. */
const thresholds = {
  operates: z.number().gt(0).lt(1).default(0.8).meta({
    description:
      'Energised at and above this fraction of rated voltage (common practice, no source)',
  }),
  holds: z.number().gt(0).lt(1).default(0.2).meta({
    description: 'Held at and above this fraction of rated voltage (common practice, no source)',
  }),
};

/** Something that uses power: heater, lamp, electronics, relay coil. */
const Load = z.strictObject({
  kind: z.literal('load'),
  between: Between,
  name: Name,
  watts: z.number().positive().meta({ description: 'Power at rated voltage, W' }),
  powerFactor: z.number().gt(0).max(1).default(1).meta({ description: 'Lagging power factor' }),
  ratedVolts: z.number().positive().default(230).meta({ description: 'Rated voltage, V' }),
  draws: z
    .enum(['board', 'lamp', 'heater', 'coil'])
    .default('board')
    .meta({ description: 'What it is, for its symbol' }),
  ...thresholds,
});

/** A motor: pump, valve or damper. */
const Motor = Load.omit({ draws: true }).extend({
  kind: z.literal('motor'),
  powerFactor: z.number().gt(0).max(1).default(0.8).meta({ description: 'Lagging power factor' }),
});

/** An input that only senses a voltage. */
const Sensing = z.strictObject({
  kind: z.literal('sensing'),
  between: Between,
  name: Name,
  ohms: z.number().positive().meta({ description: 'Input resistance, Ω' }),
  ratedVolts: z.number().positive().default(230).meta({ description: 'Rated voltage, V' }),
  ...thresholds,
});

/** A fixed resistance. */
const Resistor = z.strictObject({
  kind: z.literal('resistor'),
  between: Between,
  name: Name,
  ohms: z.number().positive().meta({ description: 'Resistance, Ω' }),
});

/** An extra-low-voltage source inside the device, as of a volt-free call pair. */
const Source = z.strictObject({
  kind: z.literal('source'),
  between: Between,
  name: Name,
  volts: z.number().positive().max(50).meta({ description: 'Open-circuit voltage, V' }),
  ohms: z.number().positive().meta({ description: 'Internal resistance, Ω' }),
  current: z.enum(['dc']).default('dc').meta({ description: 'Kind of current' }),
  poweredBy: MemberName.optional().meta({
    description: 'Element that must be energised for the source to give its voltage',
  }),
});

/** The supply of the house behind its external impedance. */
const Mains = z.strictObject({
  kind: z.literal('mains'),
  line: TerminalName,
  neutral: TerminalName,
  earth: TerminalName,
  earthing: z.enum(['TN-C-S', 'TN-S', 'TT']).default('TN-C-S'),
  name: Name,
});

/** What is inside a device between two terminals or internal nodes. */
export const Element = z.discriminatedUnion(
  'kind',
  [Link, Contact, Fuse, Breaker, Load, Motor, Sensing, Resistor, Source, Mains],
  {
    error: () =>
      'an element’s kind is one of link, contact, fuse, breaker, load, motor, sensing, resistor, source, mains',
  },
);
export type Element = z.infer<typeof Element>;
export type ElementKind = Element['kind'];

/** The terminals or nodes an element touches. */
export function endsOf(element: Element): readonly string[] {
  return element.kind === 'mains'
    ? [element.line, element.neutral, element.earth]
    : element.between;
}
