import { z } from 'zod';
import { Draft } from './draft.ts';

/** Pages of a job. */
export const VIEWS = ['next', 'seen', 'readings', 'record'] as const;
export type View = (typeof VIEWS)[number];

/** What stands on the desk beside a job's own words: kept with it, never sent on. */
export interface Place {
  readonly view: View;
  /** A reading half entered. */
  readonly draft: Draft | null;
}

export const AT_START: Place = { view: 'next', draft: null };

/** A place as it was kept; the beginning of what of it is of another version. */
export const PlaceAsKept = z
  .object({
    view: z.enum(VIEWS).catch(AT_START.view),
    draft: Draft.nullable().catch(null),
  })
  .catch(AT_START);
