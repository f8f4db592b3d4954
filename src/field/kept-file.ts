import type { z } from 'zod';
import { issueText } from './issue-text.ts';

/** Something that a firm keeps of what came back, with the day it is of. */
interface Kept {
  readonly id: string;
  readonly on: string;
}

/**
 * The records of a file that `npm run gather` keeps, or what is wrong with it.
 * @param list the key that they stand under
 * @param one what one of them is called
 */
export function recordsIn<K extends string, T extends Kept>(
  text: string,
  schema: z.ZodType<Readonly<Record<K, readonly T[]>>>,
  list: K,
  one: string,
): { readonly records: readonly T[] } | { readonly problem: string } {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { problem: 'it is not whole JSON' };
  }
  const read = schema.safeParse(value);
  if (!read.success) return { problem: issueText(read.error) };
  const records = read.data[list];
  const met = new Set<string>();
  for (const { id } of records) {
    if (met.has(id)) return { problem: `the ${one} ${id} stands there twice` };
    met.add(id);
  }
  return { records };
}

/** Records as the text of such a file: one a line, by day, so that a change is one line. */
export function recordsText(
  head: { readonly proveline: string; readonly version: number },
  list: string,
  records: readonly Kept[],
): string {
  const lines = records
    .toSorted((a, b) => (`${a.on} ${a.id}` < `${b.on} ${b.id}` ? -1 : 1))
    .map((record) => JSON.stringify(record));
  return `${JSON.stringify(head).slice(0, -1)},${JSON.stringify(list)}:[\n${lines.join(',\n')}\n]}\n`;
}
