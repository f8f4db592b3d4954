import type { Frontmatter } from './frontmatter.ts';
import { KINDS, type Kind } from './kinds.ts';
import { mergeWritten } from './merge.ts';
import { among, makeProblem } from './problem.ts';
import type { ReadEntry } from './read-entry.ts';
import { child } from './schema-tree.ts';
import { show } from './spelling.ts';
import type { Problem } from './types.ts';

/** Entries of the reference and a firm's over them, one for every kind and name. */
export interface Overlaid {
  readonly files: readonly ReadEntry[];
  readonly problems: readonly Problem[];
}

/**
 * Lays a firm's entries over the reference's. A firm's file with a name of its own is added.
 * One that bears the name of a reference's entry says which it means: `replaces: NAME` stands
 * in its place, `extends: NAME` starts from it and adds to it; both together keep its facts
 * and put the firm's prose in the place of its prose.
 */
export function overlay(ours: readonly ReadEntry[], firms: readonly ReadEntry[]): Overlaid {
  const files = new Map(ours.map((entry) => [keyOf(entry), entry]));
  const problems: Problem[] = [];
  for (const entry of firms) {
    const below = files.get(keyOf(entry));
    const known = ours.filter(({ kind }) => kind === entry.kind).map(({ id }) => id);
    const found = claimProblems(entry, below !== undefined, known, firms);
    problems.push(...found);
    files.set(keyOf(entry), found.length > 0 ? unclaimed(entry, below) : placed(entry, below));
  }
  return { files: [...files.values()], problems };
}

const keyOf = ({ kind, id }: ReadEntry) => `${kind} ${id}`;

/** What a firm's entry says of the reference's entry that it stands for or starts from. */
const claimsOf = ({ frontmatter: { data } }: ReadEntry) => ({
  replaces: child(data, 'replaces'),
  extended: child(data, 'extends'),
});

function claimProblems(
  entry: ReadEntry,
  taken: boolean,
  known: readonly string[],
  firms: readonly ReadEntry[],
): Problem[] {
  const { id, kind } = entry;
  const { data, places } = entry.frontmatter;
  if (!data) return [];
  const { replaces, extended } = claimsOf(entry);
  const what = KINDS[kind].title.toLowerCase();
  if (replaces !== undefined && replaces !== id) {
    const place = places.value(['replaces']);
    const circle = circleFrom(entry, firms);
    const details =
      typeof replaces === 'string' ? among(replaces, known) : { found: show(replaces) };
    if (circle)
      return [
        makeProblem(
          'replaces-circle',
          place,
          ['replaces'],
          `these entries replace one another in a circle: ${circle.join(' → ')}`,
          { found: show(replaces), suggestion: taken ? id : undefined },
        ),
      ];
    if (typeof replaces === 'string' && known.includes(replaces)) {
      const message = `an entry that replaces “${replaces}” stands in a file of that name`;
      return [
        makeProblem('replaces-elsewhere', place, ['replaces'], message, {
          found: entry.file,
          suggestion: `${KINDS[kind].folder}/${replaces}.mdx`,
        }),
      ];
    }
    const message = `the reference has no ${what} “${show(replaces)}” to replace`;
    return [makeProblem('replaces-unknown', place, ['replaces'], message, details)];
  }
  if (replaces === id && !taken) {
    const message = `the reference has no ${what} “${id}” to replace; leave the line out`;
    const place = places.value(['replaces']);
    return [makeProblem('replaces-unknown', place, ['replaces'], message, among(id, known))];
  }
  if (kind !== 'device' && extended !== undefined && (extended !== id || !taken)) {
    const message = taken
      ? `a ${what} can extend the entry of its own name only`
      : `the reference has no ${what} “${id}”; one that extends an entry bears its name`;
    const details = { ...among(show(extended), known), suggestion: taken ? id : undefined };
    const place = places.value(['extends']);
    return [makeProblem('extends-elsewhere', place, ['extends'], message, details)];
  }
  if (taken && replaces === undefined && extended !== id) {
    const message = `the reference has a ${what} of this name already`;
    const allowed = `replaces: ${id} (stands in its place) or extends: ${id} (adds to it)`;
    return [makeProblem('entry-shadows', places.key([]), [], message, { found: id, allowed })];
  }
  return [];
}

/** The circle that an entry's `replaces` leads round, if it does. */
function circleFrom(entry: ReadEntry, firms: readonly ReadEntry[]): string[] | undefined {
  const trail = [entry.id];
  let next = claimsOf(entry).replaces;
  while (typeof next === 'string' && !trail.includes(next)) {
    trail.push(next);
    const one = firms.find(({ kind, id }) => kind === entry.kind && id === next);
    next = one && claimsOf(one).replaces;
  }
  return next === entry.id && trail.length > 1 ? [...trail, entry.id] : undefined;
}

/** An entry whose claim is wrong: read on, so that its other problems are found too. */
function unclaimed(entry: ReadEntry, below: ReadEntry | undefined): ReadEntry {
  const frontmatter = without(entry.frontmatter, claimKeys(entry));
  return { ...entry, frontmatter, origin: below ? 'replaced' : 'added' };
}

/** Keys that belong to the layering and to no schema; a device may extend any other. */
const claimKeys = ({ kind, id, frontmatter: { data } }: ReadEntry): string[] =>
  kind !== 'device' || child(data, 'extends') === id ? ['replaces', 'extends'] : ['replaces'];

function without(frontmatter: Frontmatter, keys: readonly string[]): Frontmatter {
  if (!frontmatter.data) return frontmatter;
  const kept = Object.entries(frontmatter.data).filter(([key]) => !keys.includes(key));
  return { ...frontmatter, data: Object.fromEntries(kept) };
}

/** What stands for an entry of the reference keeps the names that this one had before. */
function withFormer(own: Frontmatter, below: ReadEntry | undefined): Frontmatter {
  const [old, added] = [below?.frontmatter.data, own.data].map((data) => child(data, 'formerly'));
  if (!own.data || !Array.isArray(old)) return own;
  // A copy that somebody started from says them already.
  const further = Array.isArray(added) ? added.filter((name) => !old.includes(name)) : [];
  return { ...own, data: { ...own.data, formerly: [...old, ...further] } };
}

function placed(entry: ReadEntry, below: ReadEntry | undefined): ReadEntry {
  const { replaces, extended } = claimsOf(entry);
  const own = withFormer(without(entry.frontmatter, claimKeys(entry)), below);
  if (!below || extended !== entry.id || !own.data || !below.frontmatter.data)
    return { ...entry, frontmatter: own, origin: below ? 'replaced' : 'added' };
  const base = { data: below.frontmatter.data, places: below.frontmatter.places };
  const frontmatter = { ...own, ...mergeWritten(base, { data: own.data, places: own.places }) };
  const problems = [...below.problems, ...entry.problems];
  const inBody = [...below.inBody, ...entry.inBody];
  const over = below.file;
  if (replaces === entry.id)
    return { ...entry, frontmatter, problems, inBody, over, origin: 'replaced' };
  return {
    ...entry,
    frontmatter: { ...frontmatter, body: `${below.frontmatter.body}\n${own.body}` },
    tags: [...below.tags, ...entry.tags],
    problems,
    inBody,
    over,
    origin: 'extended',
  };
}

/** All kinds that a path such as `systems/combi` may begin with. */
export const FOLDERS: Readonly<Record<string, Kind>> = Object.fromEntries(
  Object.entries(KINDS).map(([kind, { folder }]) => [folder, kind as Kind]),
);
