import type { z } from 'zod';
import type { BodyTag } from './body-tags.ts';
import type { Frontmatter } from './frontmatter.ts';
import { jsonSchemaOf, KINDS, type Kind } from './kinds.ts';
import type { Written } from './merge.ts';
import type { ReadEntry } from './read-entry.ts';
import type { Entry, Places, Problem } from './types.ts';
import { NO_MESSAGE, schemaProblems } from './zod-problems.ts';

/** What {@link KINDS} says of each kind's data. */
export type DataOf<K extends Kind> = z.output<(typeof KINDS)[K]['schema']>;

/** An entry that its schema accepts, while the cross checks run. */
export interface Candidate<T> extends Entry<T> {
  /** Whether nothing was found wrong with its file so far, but in its body. */
  readonly sound: boolean;
  /** Whether nothing was found wrong with its body so far. */
  readonly soundBody: boolean;
  /** Components that its body names. */
  readonly tags: readonly BodyTag[];
  /** The reference's file that it is laid over. */
  readonly over?: string;
}

/** The entries of one kind that their schema accepts, by id, and the problems of the others. */
export interface Validated<T> {
  readonly accepted: ReadonlyMap<string, Candidate<T>>;
  readonly problems: readonly Problem[];
}

/**
 * Puts entries of one kind to their schema.
 * @param merged devices with what they extend; a device that is not in it is passed over.
 */
export function validateAll<K extends Kind>(
  kind: K,
  files: readonly ReadEntry[],
  merged?: ReadonlyMap<string, Written>,
): Validated<DataOf<K>> {
  const accepted = new Map<string, Candidate<DataOf<K>>>();
  const refused = new Map<string, { base: unknown; problems: readonly Problem[] }>();
  for (const file of files) {
    const written = merged ? merged.get(file.id) : writtenIn(file.frontmatter);
    if (!written) continue;
    const result = validate(kind, written);
    if (result.data) accepted.set(file.id, candidate(file, written.places, result.data));
    else refused.set(file.id, { base: written.data.extends, problems: result.problems });
  }
  const problems = [...refused.values()].flatMap(({ base, problems: found }) => {
    const inherited = merged ? (refused.get(String(base))?.problems ?? []) : [];
    return found.filter((problem) => !inherited.some(lacksTheSame(problem)));
  });
  return { accepted, problems };
}

/** What is missing from the device extended is missing from both; it is reported there. */
const lacksTheSame = (a: Problem) => (b: Problem) =>
  a.code === 'value-missing' && a.code === b.code && a.path === b.path && !a.path.includes('.');

const writtenIn = ({ data, places }: Frontmatter): Written | undefined => data && { data, places };

function validate<K extends Kind>(
  kind: K,
  { data, places }: Written,
): { readonly data?: DataOf<K>; readonly problems: readonly Problem[] } {
  const result = KINDS[kind].schema.safeParse(data, {
    reportInput: true,
    error: () => NO_MESSAGE,
  });
  if (result.success) return { data: result.data as DataOf<K>, problems: [] };
  const subject = { data, places, schema: jsonSchemaOf(kind) };
  return { problems: schemaProblems(result.error.issues, subject) };
}

function candidate<T>(read: ReadEntry, places: Places, data: T): Candidate<T> {
  const { id, file, frontmatter, tags, problems, inBody, origin, over } = read;
  return {
    id,
    file,
    origin,
    ...(over === undefined ? {} : { over }),
    data,
    body: frontmatter.body,
    locate: (path) => frontmatter.places.value(path).position,
    places,
    sound: problems.length === inBody.length,
    soundBody: inBody.length === 0,
    tags,
  };
}
