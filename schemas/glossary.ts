import { z } from 'zod';
import { Aliases, FormerNames, Line, Slug } from './names.ts';
import { Author, Review } from './review.ts';

/** A word of the trade, with the other words people search for. */
export const Term = z.strictObject({
  title: Line,
  summary: Line.meta({ description: 'Its meaning in one or two sentences' }),
  abbreviations: z.array(Line).default([]).meta({ description: 'Short forms, as in S/L' }),
  aliases: Aliases,
  formerly: FormerNames,
  see: z.array(Slug).default([]).meta({ description: 'Other glossary entries worth reading' }),
  author: Author,
  review: Review.optional(),
});
export type Term = z.infer<typeof Term>;
