import { z } from 'zod';
import { Aliases, FormerNames, Line } from './names.ts';
import { Author, CheckedOn, Review } from './review.ts';
import { StandardRule } from './standard-rule.ts';
import { ARRANGEMENTS, CONTROLS, Features } from './system.ts';

/** How grave it is when a system does not meet a standard, gravest first. */
export const SEVERITIES = ['danger', 'fault', 'advice'] as const;

/** The systems a standard is about: those that have one of each list given. */
const Applies = z.strictObject({
  arrangements: z.array(z.enum(ARRANGEMENTS)).min(1, 'name at least one').optional(),
  controls: z.array(z.enum(CONTROLS)).min(1, 'name at least one').optional(),
  features: Features.min(1, 'name at least one').optional(),
});

/** A rule of the house, checked by machine on every system. Its body says why it exists. */
export const Standard = z.strictObject({
  title: Line.meta({ description: 'The rule as a sentence' }),
  summary: Line.meta({ description: 'Why it exists, in one or two sentences' }),
  aliases: Aliases,
  formerly: FormerNames,
  severity: z.enum(SEVERITIES).meta({
    description:
      'danger: somebody may be hurt; fault: it does not work as it must; advice: reported as a warning',
  }),
  rule: StandardRule,
  applies: Applies.optional().meta({ description: 'Systems it is about; every one if absent' }),
  checked: CheckedOn,
  author: Author,
  review: Review.optional(),
  sources: z
    .array(Line)
    .min(1, 'a standard names its sources, or says "common practice, no source"'),
});
export type Standard = z.infer<typeof Standard>;
export type StandardInput = z.input<typeof Standard>;
