import { z } from 'zod';
import { Aliases, FormerNames, Line } from './names.ts';
import { Author, CheckedOn, Review } from './review.ts';

/** One act of a procedure. */
const Step = z.strictObject({
  do: Line.meta({ description: 'The act, as an instruction' }),
  expect: Line.optional().meta({ description: 'What must be seen before going on' }),
  why: Line.optional(),
  caution: Line.optional().meta({ description: 'Shown at this act' }),
});

/** How a job is done safely: isolation, dead tests, live tests. */
export const Procedure = z.strictObject({
  title: Line,
  summary: Line,
  aliases: Aliases,
  formerly: FormerNames,
  kind: z.enum(['isolation', 'dead tests', 'live tests', 'replacing', 'proving', 'handing over']),
  order: z.number().int().positive().meta({ description: 'Place in the list of procedures' }),
  tools: z.array(Line).default([]),
  cautions: z.array(Line).min(1, 'a procedure states at least one caution'),
  steps: z.array(Step).min(1, 'a procedure has at least one step'),
  sources: z
    .array(Line)
    .min(1, 'a procedure names its sources, or says "common practice, no source"'),
  checked: CheckedOn,
  author: Author,
  review: Review.optional(),
});
export type Procedure = z.infer<typeof Procedure>;
