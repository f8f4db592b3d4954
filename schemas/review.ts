import { z } from 'zod';
import { CalendarDate, Line } from './names.ts';

/** Who read an entry against the work it describes, when, and when that is due again. */
export const Review = z
  .strictObject({
    by: Line.meta({ description: 'Who reviewed it' }),
    on: CalendarDate.meta({ description: 'Date of the review, YYYY-MM-DD' }),
    due: CalendarDate.meta({ description: 'Date by which it is due again, YYYY-MM-DD' }),
  })
  .refine(({ on, due }) => on < due, {
    path: ['due'],
    error: 'a review is due again after the day it was made',
  });
export type Review = z.infer<typeof Review>;

/** Date of the last review, of entries that may say no more of it. */
export const LastReview = CalendarDate.optional().meta({
  description: 'Date of the last review, YYYY-MM-DD; absent while nobody has reviewed the entry',
});

/** When an entry was last reviewed, YYYY-MM-DD; undefined while nobody has. */
export const lastReviewed = (entry: {
  readonly review?: Review | undefined;
  readonly reviewed?: string | undefined;
}): string | undefined => entry.review?.on ?? entry.reviewed;

/** Whether a review is overdue on a day, YYYY-MM-DD: its due date has passed. */
export const isOverdue = ({ due }: Review, today: string): boolean => due < today;
