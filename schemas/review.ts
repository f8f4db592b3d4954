import { z } from 'zod';
import { CalendarDate, Line } from './names.ts';

/** Who read an entry against the work it describes, when, and when that is due again. */
export const Review = z
  .strictObject({
    by: Line.meta({ description: 'Who reviewed it' }),
    on: CalendarDate.meta({ description: 'Date of the review, YYYY-MM-DD' }),
    due: CalendarDate.meta({ description: 'Date by which it is due again, YYYY-MM-DD' }),
    seal: z
      .string('a seal is text in quotation marks')
      .regex(/^[0-9a-f]{8}(-[0-9a-f]{8}){0,2}$/, 'a seal is what npm run review writes')
      .optional()
      .meta({ description: 'Hash of what was read, written by npm run review' }),
  })
  .refine(({ on, due }) => on < due, {
    path: ['due'],
    error: 'a review is due again after the day it was made',
  });
export type Review = z.infer<typeof Review>;

/** Who wrote an entry as it stands: a second person reviews it, where the firm asks for one. */
export const Author = Line.optional().meta({ description: 'Who wrote it as it stands' });

/**
 * Day on which an entry was last checked, by the proofs and against its sources. Nobody's review:
 * that has a name.
 */
export const CheckedOn = CalendarDate.optional().meta({
  description:
    'Day on which the entry was last checked by the proofs and against its sources, YYYY-MM-DD; a person’s review is review',
});

/** Whether a review is overdue on a day, YYYY-MM-DD: its due date has passed. */
export const isOverdue = ({ due }: Review, today: string): boolean => due < today;
