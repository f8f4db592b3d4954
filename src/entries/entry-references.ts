import type { Term } from '../../schemas/index.ts';
import { among } from './problem.ts';
import { type Report, reportFor } from './report.ts';
import type { Places, Problem } from './types.ts';

/** What a check across all entries of a kind needs of each. */
export interface Titled {
  readonly title: string;
  readonly places: Places;
}

/** Readers choose entries by title, so no two of a kind may share one; by entry id. */
export function titleProblems(
  entries: ReadonlyMap<string, Titled>,
): Map<string, readonly Problem[]> {
  const first = new Map<string, Titled>();
  const problems = new Map<string, readonly Problem[]>();
  for (const [id, entry] of entries) {
    const key = entry.title.toLowerCase();
    const earlier = first.get(key);
    if (!earlier) {
      first.set(key, entry);
      continue;
    }
    const { source, position } = earlier.places.value(['title']);
    const report: Report = reportFor(entry.places);
    const message = `another entry has this title already: ${source.file}:${position.line}`;
    report.value('title-used-twice', ['title'], message, { found: entry.title });
    problems.set(id, report.problems);
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
