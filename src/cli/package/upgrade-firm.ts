import { existsSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { FIRM_FILE } from '../../../schemas/index.ts';
import {
  fileSystem,
  formerNamesIn,
  isOfFormerName,
  KINDS,
  loadEntries,
  type Problem,
} from '../../entries/index.ts';
import { CONTENT, checkReference, FIRM_PREFIX } from '../../firm/index.ts';
import { currentName, currentPath, type FormerNames } from '../../former/index.ts';

/** Where an upgrade works. */
export interface Upgraded {
  /** The firm's folder. */
  readonly firm: string;
  /** The reference's content folder. */
  readonly content: string;
}

/** One step of the ladder that leads a firm's folder from one version of Proveline to the next. */
export interface Rung {
  /** The version whose shape it gives; null: tried at every upgrade, whatever the versions. */
  readonly to: string | null;
  /** Rewrites the firm's files, and says line by line what it changed. */
  readonly climb: (at: Upgraded) => readonly string[];
}

/**
 * The ladder, its lowest rung first. What entries are called is in the reference's own entries, and
 * is tried last at every upgrade. A version that changes what a firm's files may say adds a rung.
 */
const LADDER: readonly Rung[] = [{ to: null, climb: writeCurrentNames }];

/** How often a folder is checked anew: what is put right may show what is missed behind it. */
const MOST_ROUNDS = 20;

/** The first version: a folder that says none is of it. */
const FIRST = '0.1.0';

/**
 * Brings a firm's folder to a version of Proveline: every rung between the version that its
 * settings say and this one, in order; then the settings say this one.
 * @returns what was changed, a line each
 * @throws Error when the folder is of a later version
 */
export function upgrade(at: Upgraded, to: string, ladder: readonly Rung[] = LADDER): string[] {
  const file = join(at.firm, FIRM_FILE);
  const from = versionIn(readFileSync(file, 'utf8')) ?? FIRST;
  if (isBelow(to, from))
    throw new Error(
      `${FIRM_FILE} says that its entries are for Proveline ${from}, and this is ${to}: an older one cannot read them for sure. Install ${from} or later: npm install proveline@${from}`,
    );
  const changes = ladder.flatMap((rung) =>
    rung.to === null || (isBelow(from, rung.to) && !isBelow(to, rung.to)) ? rung.climb(at) : [],
  );
  writeFileSync(file, withVersion(readFileSync(file, 'utf8'), to));
  return changes;
}

/** The version that settings say their entries are for. */
const versionIn = (settings: string): string | undefined =>
  /^proveline:\s*["']?(\d+\.\d+\.\d+)/m.exec(settings)?.[1];

/** Settings that say this version, below the firm's name where they said none. */
function withVersion(settings: string, version: string): string {
  const line = `proveline: ${version}`;
  if (versionIn(settings) !== undefined)
    return settings.replace(/^proveline:\s*["']?[\d.]+["']?/m, line);
  return settings.replace(/^name:.*\n/m, (name) => `${name}${line}\n`);
}

const isBelow = (a: string, b: string): boolean => {
  const [x, y] = [a, b].map((version) => version.split('.').map(Number)) as [number[], number[]];
  const at = x.findIndex((part, i) => part !== y[i]);
  return at !== -1 && x[at]! < y[at]!;
};

/** Writes the names that the reference's entries have now wherever the firm uses former ones. */
function writeCurrentNames({ firm, content }: Upgraded): string[] {
  const { entries } = loadEntries(content, fileSystem);
  const former = formerNamesIn(entries);
  return [
    ...renameFiles(firm, former),
    ...entryFiles(firm).flatMap((file) => writeLinks(firm, file, former)),
    ...writeReferences(firm, content),
  ];
}

/** Files of the firm's entries, from its folder. */
const entryFiles = (firm: string): string[] =>
  Object.values(KINDS).flatMap(({ folder }) => {
    const at = join(firm, CONTENT, folder);
    if (!existsSync(at)) return [];
    const names = readdirSync(at).filter((name) => name.endsWith('.mdx'));
    return names.map((name) => join(CONTENT, folder, name));
  });

/** A file that stands over a renamed entry takes that entry's name. */
function renameFiles(firm: string, former: FormerNames): string[] {
  return entryFiles(firm).flatMap((file) => {
    const [, folder = '', name = ''] = file.split(/[/\\]/);
    const old = name.slice(0, -'.mdx'.length);
    const now = currentName(former, folder, old);
    const text = readFileSync(join(firm, file), 'utf8');
    const claim = new RegExp(`^(replaces|extends): *["']?${old}["']? *$`, 'm');
    if (now === old || !claim.test(text)) return [];
    const to = join(CONTENT, folder, `${now}.mdx`);
    if (existsSync(join(firm, to)))
      return [`${file}: not renamed, since ${to} is there too; put both into one by hand`];
    writeFileSync(join(firm, file), text.replace(claim, `$1: ${now}`));
    renameSync(join(firm, file), join(firm, to));
    return [`${file}: now ${to}, as the entry that it stands over was renamed`];
  });
}

/** Links in prose lead to the addresses of now. */
function writeLinks(firm: string, file: string, former: FormerNames): string[] {
  const text = readFileSync(join(firm, file), 'utf8');
  const changes: string[] = [];
  const written = text.replaceAll(/(?<=\]\(\/)[a-z]+\/[^)\s]*/g, (path) => {
    const now = currentPath(former, path);
    if (now !== path) changes.push(`${file}: link to /${path}, now /${now}`);
    return now;
  });
  if (changes.length > 0) writeFileSync(join(firm, file), written);
  return changes;
}

/** Names at the places where a check misses an entry by a former one, until it misses none. */
function writeReferences(firm: string, content: string): string[] {
  const changes: string[] = [];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const missed = checkReference({ content, firm }).problems.filter(isOfFormerName);
    const written = missed.flatMap((problem) => writeAt(firm, problem));
    if (written.length === 0) break;
    changes.push(...written);
  }
  return changes;
}

/** Writes the present name where a problem stands; nothing where it is not found there. */
function writeAt(firm: string, { file, position, found, suggestion }: Problem): string[] {
  if (!file.startsWith(FIRM_PREFIX) || found === undefined || suggestion === undefined) return [];
  const path = file.slice(FIRM_PREFIX.length);
  const lines = readFileSync(join(firm, path), 'utf8').split('\n');
  const line = lines[position.line - 1] ?? '';
  const at = line.indexOf(found, position.column - 1);
  if (at === -1) return [];
  lines[position.line - 1] = line.slice(0, at) + suggestion + line.slice(at + found.length);
  writeFileSync(join(firm, path), lines.join('\n'));
  return [`${path}:${position.line}: ${found}, now ${suggestion}`];
}
