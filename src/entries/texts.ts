import { ANY_WORD, READ_FIELDS } from '../words/index.ts';
import type { ProblemCode } from './catalogue.ts';
import { type Details, makeProblem } from './problem.ts';
import type { Entry, Path, Problem } from './types.ts';

/** What is amiss with a piece of a text. */
export interface Finding {
  readonly code: ProblemCode;
  readonly message: string;
  readonly details: Details;
  /** Place in the text. */
  readonly at: number;
}

/** Looks through one text: that of a field, or a line of the body, whose path is empty. */
export type Finder = (text: string, path: Path) => readonly Finding[];

/** One problem for each thing found in the texts of an entry that people read. */
export const problemsInTexts = (entry: Entry<unknown>, find: Finder): Problem[] => [
  ...inFields(entry, find),
  ...inBody(entry, find),
];

function inFields({ data, places }: Entry<unknown>, find: Finder): Problem[] {
  const problems: Problem[] = [];
  const walk = (value: unknown, path: Path): void => {
    if (typeof value === 'string') {
      if (!path.some((key) => READ_FIELDS.includes(String(key)))) return;
      for (const { code, message, details } of find(value, path))
        problems.push(makeProblem(code, places.value(path), path, message, details));
    } else if (typeof value === 'object' && value !== null) {
      for (const [key, inner] of Object.entries(value)) {
        if (!ANY_WORD.includes(key))
          walk(inner, [...path, Array.isArray(value) ? Number(key) : key]);
      }
    }
  };
  walk(data, []);
  return problems;
}

function inBody({ body, places }: Entry<unknown>, find: Finder): Problem[] {
  const { source } = places.key([]);
  const lines = body.split('\n');
  const before = source.lines.length - lines.length;
  return lines.flatMap((line, i) => {
    // Attributes name terminals and modes.
    const prose = line.replace(/<[^>]*>/g, (tag) => ' '.repeat(tag.length));
    return find(prose, []).map(({ code, message, details, at }) => {
      const position = { line: before + i + 1, column: at + 1 };
      return makeProblem(code, { source, position }, [], message, details);
    });
  });
}
