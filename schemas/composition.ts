import { z } from 'zod';
import { MemberName, Slug } from './names.ts';

const Choice = z.union([Slug, z.strictObject({ module: Slug, variant: MemberName })], {
  error: () => 'a module is its file name, or module and variant',
});

const Service = z.strictObject({
  controls: z
    .array(Choice)
    .default([])
    .meta({ description: 'Controls in the order in which the live meets them' }),
  valve: Choice.optional(),
  limit: Choice.optional().meta({ description: 'Safety cut-out in its live' }),
});

/** The parts that a system is composed from, each a module’s file name. */
export const Composition = z.strictObject({
  supply: Choice.optional(),
  isolator: Choice.optional(),
  heat: Choice.meta({ description: 'Heat source' }),
  pump: Choice.optional().meta({ description: 'Pump outside the boiler' }),
  time: Choice.optional().meta({ description: 'Clock, or receiver of two channels' }),
  valve: Choice.optional().meta({ description: 'Valve that heating and hot water share' }),
  gravity: z.boolean().optional().meta({ description: 'Whether hot water goes round by itself' }),
  heating: z.array(Service).min(1, 'a system heats at least one circuit'),
  hotWater: Service.optional(),
  additions: z.array(Choice).default([]),
});
export type Composition = z.infer<typeof Composition>;
