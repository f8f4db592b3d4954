import { z } from 'zod';
import { Definition } from '../data/index.ts';
import { ToldFacts, withTold } from './told-facts.ts';

const text = z.string();

/**
 * What a comparison needs of a system's open data. Fields it does not name are passed over, so
 * that a build can be compared with one whose data said less or more.
 */
const Facts = z.object({
  id: text,
  title: text,
  /** Ids it had before; builds from before any was renamed do not say. */
  formerly: z.array(text).default([]),
  definition: Definition,
  nodes: z.array(z.object({ id: text })),
  branches: z.array(z.object({ id: text, kind: text, from: text, to: text })),
  modes: z.array(
    z.object({
      id: text,
      title: text,
      after: text.nullable(),
      conditions: z.record(text, z.boolean()),
      outcomes: z.record(text, z.union([z.boolean(), z.literal('hunting')])),
    }),
  ),
  wiring: z.array(
    z.object({
      id: text,
      cable: text,
      colour: text,
      sleeve: text.nullable(),
      from: text,
      to: text,
    }),
  ),
  instruments: z.array(z.object({ id: text })),
  pairs: z.array(z.object({ id: text, from: text, to: text })),
  readings: z.record(text, z.record(text, z.record(text, z.tuple([z.number(), z.number(), text])))),
  /** What it tells of faults, tests and replacements; absent from data that does not. */
  told: ToldFacts.optional(),
});

/** The same, with what is told taken from the parts of the open data that tell it. */
export const SystemFacts = z.preprocess(withTold, Facts);
export type SystemFacts = z.infer<typeof SystemFacts>;

/** One thing that is not as it was. */
export const Change = z.strictObject({
  kind: z
    .enum([
      'item',
      'part',
      'protection',
      'core',
      'cable',
      'length',
      'link',
      'mode',
      'marking',
      'outcome',
      'reading',
    ])
    .meta({ description: 'What it is about: sorts the list and lets a reader pick' }),
  words: text.meta({ description: 'A sentence an engineer would say' }),
});
export type Change = z.infer<typeof Change>;
