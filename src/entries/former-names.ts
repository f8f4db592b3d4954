import { currentPath, type FormerNames } from '../former/index.ts';
import { entriesByKind, KINDS, type Kind } from './kinds.ts';
import { makeProblem } from './problem.ts';
import type { ReadEntry } from './read-entry.ts';
import { child } from './schema-tree.ts';
import type { Entries, Path, Problem } from './types.ts';

/** Former names of the entries that are shown, by the folder they stand in. */
export function formerNamesIn(entries: Entries): FormerNames {
  const names: Record<string, Record<string, string>> = {};
  for (const [, { folder }, { id, data }] of entriesByKind(entries)) {
    const { formerly = [] } = data as { readonly formerly?: readonly string[] | undefined };
    for (const old of formerly) names[folder] = { ...names[folder], [old]: id };
  }
  return names;
}

/**
 * Checks that each former name leads to one entry: it is no entry's name, and one entry's former
 * name. Told at the line that names it; at a firm's file where that took the name of old.
 */
export function formerNameProblems(files: readonly ReadEntry[]): readonly Problem[] {
  const problems: Problem[] = [];
  const bearers = new Map(files.map((file) => [`${file.kind} ${file.id}`, file]));
  const claims = new Map<string, ReadEntry>();
  for (const entry of files)
    formerlyOf(entry).forEach((name, i) => {
      const { kind, id, frontmatter } = entry;
      const key = `${kind} ${name}`;
      const what = KINDS[kind].title.toLowerCase();
      const bearer = bearers.get(key);
      const earlier = claims.get(key);
      const path: Path = ['formerly', i];
      const refuse = (code: 'former-name-live' | 'former-name-twice', message: string) =>
        problems.push(
          makeProblem(code, frontmatter.places.value(path), path, message, { found: name }),
        );
      if (bearer && bearer !== entry && entry.origin === 'reference' && bearer.origin === 'added')
        problems.push(
          makeProblem(
            'former-name-live',
            bearer.frontmatter.places.key([]),
            [],
            `the reference’s ${what} “${id}” was called so before, and its old addresses lead there`,
            { found: name },
          ),
        );
      else if (bearer)
        refuse(
          'former-name-live',
          bearer === entry
            ? `this ${what} is called “${name}” now`
            : `there is a ${what} of this name: ${bearer.file}`,
        );
      else if (earlier)
        refuse(
          'former-name-twice',
          earlier === entry
            ? 'this former name stands here twice'
            : `${earlier.file} was called so before already`,
        );
      else claims.set(key, entry);
    });
  return problems;
}

/** The former names that a file gives, as far as they are names. */
function formerlyOf({ frontmatter: { data } }: ReadEntry): string[] {
  const written = child(data, 'formerly');
  return Array.isArray(written) ? written.map(String) : [];
}

/** Kind of entry that the author of a problem looked for in vain. */
const LOOKED_FOR: Readonly<Record<string, Kind>> = {
  'device-unknown': 'device',
  'term-unknown': 'term',
  'symptom-unknown': 'symptom',
  'standard-unknown': 'standard',
};

const RENAMED = 'It was renamed: write the name it has now.';

/** Whether a problem is of an entry that is missed by a name it had before. */
export const isOfFormerName = ({ mend }: Problem): boolean => mend === RENAMED;

/** Problems of a name that is not there, with the name it has now where it was another. */
export const withCurrentNames = (
  problems: readonly Problem[],
  former: FormerNames,
): readonly Problem[] =>
  problems.map((problem) => {
    const path = lookedFor(problem);
    const now = currentPath(former, path);
    if (now === path) return problem;
    const suggestion = problem.code === 'entry-unknown' ? now : now.split('/')[1]!;
    return { ...problem, suggestion, mend: RENAMED };
  });

/** The entry that a problem misses, as `systems/name`; empty where it misses none. */
function lookedFor({ code, file, found = '' }: Problem): string {
  if (code === 'entry-unknown') return found;
  if (code === 'replaces-unknown') return `${file.split('/').at(-2)}/${found}`;
  const kind = LOOKED_FOR[code];
  return kind ? `${KINDS[kind].folder}/${found}` : '';
}
