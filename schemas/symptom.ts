import { z } from 'zod';
import { Device } from './device.ts';
import { Aliases, CalendarDate, Line, MemberName, Slug } from './names.ts';

/** One thing a person sees, in some modes: an outcome of every device of a family. */
const Sign = z.strictObject({
  family: Device.shape.family,
  outcome: MemberName.meta({ description: 'Outcome of that family’s devices, as in burner' }),
  is: z.boolean().meta({ description: 'Whether it is seen' }),
  modes: z
    .array(Slug)
    .min(1, 'a sign names at least one mode')
    .meta({
      description: 'Modes, by id, in which it is so; systems without one of them are left out',
    }),
});
export type Sign = z.infer<typeof Sign>;

/**
 * What a customer says or an engineer sees first, defined by outcomes, so that its causes
 * are computed over every system that can show it.
 */
export const Symptom = z.strictObject({
  title: Line,
  summary: Line,
  aliases: Aliases,
  says: z.array(Line).default([]).meta({ description: 'In the customer’s words' }),
  seen: z.array(Line).default([]).meta({ description: 'What is seen or heard on the equipment' }),
  shows: z.array(Sign).min(1, 'a symptom is defined by at least one sign'),
  cautions: z.array(Line).default([]),
  see: z.array(Slug).default([]).meta({ description: 'Other symptoms worth reading' }),
  reviewed: CalendarDate,
});
export type Symptom = z.infer<typeof Symptom>;
