import type { Term } from '../../schemas/index.ts';
import { among } from './problem.ts';
import { reportFor } from './report.ts';
import type { Path, Places, Problem } from './types.ts';

/** What a check across all entries of a kind needs of each. */
export interface Titled {
  readonly file: string;
  /** The reference's file that it is laid over; its title may stand there. */
  readonly over?: string;
  readonly title: string;
  readonly places: Places;
}

/** Readers choose entries by title, so no two of a kind may share one; by entry id. */
export function titleProblems(
  entries: ReadonlyMap<string, Titled>,
): Map<string, readonly Problem[]> {
  const first = new Map<string, Titled>();
  const problems = new Map<string, readonly Problem[]>();
  const refuse = (id: string, { places, title }: Titled, path: Path, message: string) => {
    const report = reportFor(places);
    report.value('title-used-twice', path, message, { found: title });
    problems.set(id, report.problems);
  };
  for (const [id, entry] of entries) {
    const { file } = entry.places.value(['title']).source;
    if (file !== entry.file && file !== entry.over) {
      refuse(id, entry, ['extends'], 'a device that extends another needs a title of its own');
      continue;
    }
    const key = entry.title.toLowerCase();
    const earlier = first.get(key);
    if (earlier) {
      const { line } = earlier.places.value(['title']).position;
      const where = `${earlier.file}:${line}`;
      refuse(id, entry, ['title'], `another entry has this title already: ${where}`);
    } else first.set(key, entry);
  }
  return problems;
}

/** Checks that every glossary entry a term points to is there. */
export function termProblems(
  term: Term,
  places: Places,
  ids: Iterable<string>,
): readonly Problem[] {
  const report = reportFor(places);
  const known = [...ids];
  term.see.forEach((id, i) => {
    if (known.includes(id)) return;
    const message = `there is no glossary entry “${id}”`;
    report.value('term-unknown', ['see', i], message, among(id, known));
  });
  return report.problems;
}
