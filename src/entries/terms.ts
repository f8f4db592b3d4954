import { ANY_WORD, READ_FIELDS, wrongTerms } from '../words/index.ts';
import { entriesByKind } from './kinds.ts';
import { makeProblem } from './problem.ts';
import { reportFor } from './report.ts';
import type { Entries, Entry, Path, Problem } from './types.ts';

/**
 * One problem for each word of an entry that the trade does not use so. The glossary is where
 * such words are explained, and holds any.
 */
export const termProblems = (entries: Entries): Problem[] =>
  entriesByKind(entries).flatMap(([kind, , entry]) =>
    kind === 'term' ? [] : [...fieldProblems(entry), ...bodyProblems(entry)],
  );

const message = (found: string, say: string) => ({
  text: `the trade does not say “${found}” here`,
  details: { found, mend: `Say ${say}.` },
});

function fieldProblems({ data, places }: Entry<unknown>): Problem[] {
  const report = reportFor(places);
  const walk = (value: unknown, path: Path): void => {
    if (typeof value === 'string') {
      if (!path.some((key) => READ_FIELDS.includes(String(key)))) return;
      for (const { found, say } of wrongTerms(value)) {
        const { text, details } = message(found, say);
        report.value('word-not-used', path, text, details);
      }
    } else if (typeof value === 'object' && value !== null) {
      for (const [key, inner] of Object.entries(value)) {
        if (!ANY_WORD.includes(key))
          walk(inner, [...path, Array.isArray(value) ? Number(key) : key]);
      }
    }
  };
  walk(data, []);
  return [...report.problems];
}

function bodyProblems({ body, places }: Entry<unknown>): Problem[] {
  const { source } = places.key([]);
  const lines = body.split('\n');
  const before = source.lines.length - lines.length;
  return lines.flatMap((line, i) => {
    // Attributes name terminals and modes.
    const prose = line.replace(/<[^>]*>/g, (tag) => ' '.repeat(tag.length));
    return wrongTerms(prose).map(({ found, say, at }) => {
      const { text, details } = message(found, say);
      const position = { line: before + i + 1, column: at + 1 };
      return makeProblem('word-not-used', { source, position }, [], text, details);
    });
  });
}
