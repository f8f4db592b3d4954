import { stringify } from 'yaml';
import type { z } from 'zod';

const LONGEST_SHOWN = 60;

/** A value as the author would write it on one line, cut when long. */
export function show(value: unknown): string {
  if (value === null || value === undefined) return 'nothing';
  const text =
    typeof value === 'string'
      ? value
      : stringify(value, { collectionStyle: 'flow', lineWidth: 0 }).trim();
  if (text.trim() === '') return 'an empty text';
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text;
}

/** Ways in which people miss the form of a name: case, and what joins its words. */
const RESPELLINGS: readonly ((text: string) => string)[] = [
  (text) => text.trim(),
  (text) => text.toLowerCase(),
  (text) => text.toUpperCase(),
  (text) => text.toUpperCase().replaceAll(/[\s_-]+/g, ''),
  (text) => text.toLowerCase().replaceAll(/[\s_]+/g, '-'),
  (text) => text.toLowerCase().replaceAll(/[_.-]+/g, ' '),
  (text) => text.replaceAll(/[_/.]+/g, ' '),
  (text) => text.replaceAll(/[:/]/g, '.'),
];

/** The same word in the form asked for, when only case or separators are wrong. */
export function didYouMeanSpelling(found: string, issue: z.core.$ZodIssue): string | undefined {
  if (issue.code !== 'invalid_format' || !issue.pattern) return undefined;
  const [, source = '', flags = ''] = /^\/(.*)\/([a-z]*)$/s.exec(issue.pattern) ?? [];
  const pattern = new RegExp(source, flags);
  return RESPELLINGS.map((respell) => respell(found)).find(
    (word) => word !== found && pattern.test(word),
  );
}
