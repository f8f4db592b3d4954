import { z } from 'zod';
import {
  CableReference,
  Colour,
  ItemReference,
  TerminalReference,
} from '../../../schemas/names.ts';
import type { AsFound } from './state.ts';

/** Most of each thing: more than any one system has, and few enough for a link. */
const MOST = { cables: 40, ends: 200, links: 40, bridged: 40, absent: 40, ratings: 20, name: 80 };
/** Largest rating of a fuse or breaker that a state may name, A. */
export const MOST_AMPS = 125;

const Point = TerminalReference.max(MOST.name);
const Branch = z
  .string()
  .max(MOST.name)
  .regex(/^[A-Z]{1,2}[0-9]{1,2}\/[a-z0-9][a-z0-9 -]*$/);
const sized = (record: object) => Object.keys(record).length;

/** Wiring as found as data from outside: a link, a job's file. */
export const AsFoundData: z.ZodType<AsFound> = z.strictObject({
  cables: z
    .record(CableReference, z.array(Colour).max(15))
    .refine((cables) => sized(cables) <= MOST.cables),
  ends: z
    .array(
      z.strictObject({
        cable: CableReference,
        colour: Colour,
        end: z.union([z.literal(0), z.literal(1)]),
        point: z.union([z.enum(['loose', 'short']), Point]),
      }),
    )
    .max(MOST.ends),
  missingLinks: z.array(z.int().min(0).max(99)).max(MOST.links),
  extraLinks: z.array(z.tuple([Point, Point])).max(MOST.links),
  bridged: z.array(Branch).max(MOST.bridged),
  absent: z.array(ItemReference).max(MOST.absent),
  ratings: z
    .record(Branch, z.number().positive().max(MOST_AMPS))
    .refine((ratings) => sized(ratings) <= MOST.ratings),
});
