import { createHash } from 'node:crypto';
import { z } from 'zod';
import { type ChangeKind, graver, KIND_NAMES, RANK_NAMES, type Rank, rankOf } from './ranks.ts';

const text = z.string();
const Named = z.strictObject({ id: text, title: text });

/** One thing that a reader would do, read or think otherwise, said once. */
export const ChangeLine = z.strictObject({
  id: text.meta({ description: 'The same for the same change, wherever it is told' }),
  rank: z.enum(RANK_NAMES),
  kind: z.enum(KIND_NAMES),
  about: z.strictObject({
    title: text.meta({ description: 'What it is a change of' }),
    path: text.nullable().meta({ description: 'Its page from the site’s base; null: none' }),
  }),
  words: text.meta({ description: 'What is otherwise, as an engineer would say it' }),
  systems: z.array(Named).meta({ description: 'Systems it is in; none: it is of no one system' }),
  follows: z
    .array(z.strictObject({ system: text, words: text }))
    .meta({ description: 'What comes of it, by title of the system' }),
});
export type ChangeLine = z.infer<typeof ChangeLine>;

/** What is the same of a change before it is known where it stands. */
export interface Found {
  readonly kind: ChangeKind;
  readonly words: string;
}

/** A change as a line. */
export function lineOf(
  about: ChangeLine['about'],
  { kind, words }: Found,
  systems: readonly Readonly<ChangeLine['systems'][number]>[] = [],
): ChangeLine {
  const id = createHash('sha256').update(JSON.stringify([about.path, kind, words]));
  return {
    id: id.digest('hex').slice(0, 8),
    rank: rankOf(kind),
    kind,
    about,
    words,
    systems: [...systems],
    follows: [],
  };
}

/** A line with what comes of it; what is graver than the line itself makes the line as grave. */
export function withFollowing(
  line: ChangeLine,
  system: string,
  effects: readonly Found[],
): ChangeLine {
  const grave = effects.filter(({ kind }) => GRAVE.has(kind)).map(({ kind }) => rankOf(kind));
  return {
    ...line,
    rank: grave.reduce<Rank>(graver, line.rank),
    follows: [...line.follows, ...effects.map(({ words }) => ({ system, words }))],
  };
}

const GRAVE: ReadonlySet<ChangeKind> = new Set(['hazard', 'who']);

/** Gravest first; within a rank by the table of kinds, then by what it is about. */
export const inOrder = (lines: readonly ChangeLine[]): ChangeLine[] =>
  lines.toSorted(
    (a, b) =>
      RANK_NAMES.indexOf(a.rank) - RANK_NAMES.indexOf(b.rank) ||
      KIND_NAMES.indexOf(a.kind) - KIND_NAMES.indexOf(b.kind) ||
      a.about.title.localeCompare(b.about.title, 'en'),
  );
