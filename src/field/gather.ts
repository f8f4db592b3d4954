import { createHash } from 'node:crypto';
import {
  closeSync,
  constants,
  fstatSync,
  lstatSync,
  openSync,
  readdirSync,
  readSync,
} from 'node:fs';
import { join } from 'node:path';
import { type CountedVisit, MOST_VISITS } from './counts.ts';
import type { FieldFile, Report, Visit } from './file.ts';
import { MOST_FIELD_BYTES } from './limits.ts';
import { type Refusal, readFieldBytes, tooLarge } from './read.ts';

/** A file of the folder that is not taken, with why and what would be. */
export interface Refused extends Refusal {
  readonly name: string;
}

/** A file as it was read. */
interface Named<T> {
  readonly name: string;
  readonly file: T;
}

/** What a folder of files from the field holds. */
export interface Gathered {
  readonly reports: readonly Named<Report>[];
  readonly visits: readonly Named<Visit>[];
  /** Files that hold what another holds too: counted once. */
  readonly again: readonly { readonly name: string; readonly first: string }[];
  readonly refused: readonly Refused[];
}

/** What the reference knows, by which a file is judged. */
export interface Known {
  /**
   * The address as it is now, as in `systems/combi-two-wire/readings/`; undefined where there is
   * no such entry.
   */
  readonly current: (path: string) => string | undefined;
  /** Names of systems, for what is allowed. */
  readonly systems: readonly string[];
}

/** Most files of a folder that are read. */
const MOST_FILES = 10_000;
const READ = /\.(json|txt)$/i;

/**
 * Reads every file of a folder from the field, each for itself: what one holds or is called stops
 * no other. Links are not followed, folders not entered, and what is too large is not opened.
 * @throws Error where there is no such folder
 */
export function gather(folder: string, known: Known): Gathered {
  let names: string[];
  try {
    names = readdirSync(folder).sort();
  } catch {
    throw new Error(`There is no folder ${folder} that can be read`);
  }
  const refused: Refused[] = [];
  const taken: Named<FieldFile>[] = [];
  const again: { name: string; first: string }[] = [];
  const firstOf = new Map<string, { name: string; hash: string }>();
  const all = names.flatMap((name, i) =>
    i < MOST_FILES
      ? filesOf(folder, name, known)
      : [
          {
            name,
            problem: 'too many files stand in the folder',
            allowed: `the first ${MOST_FILES}`,
          },
        ],
  );
  for (const { name, ...read } of all) {
    if ('problem' in read) {
      refused.push({ name, ...read });
      continue;
    }
    const { file } = read;
    const hash = createHash('sha256').update(JSON.stringify(file)).digest('hex');
    const before = firstOf.get(file.id);
    if (!before) {
      firstOf.set(file.id, { name, hash });
      taken.push({ name, file });
    } else if (before.hash === hash) again.push({ name, first: before.name });
    else
      refused.push({
        name,
        problem: `it has the id of ${shown(before.name)} and says something else`,
        allowed: 'one of the two: take the other out of the folder',
      });
  }
  return {
    reports: taken.flatMap(({ name, file }) => (file.kind === 'report' ? { name, file } : [])),
    visits: taken.flatMap(({ name, file }) => (file.kind === 'visit' ? { name, file } : [])),
    again,
    refused,
  };
}

type Judged = Refused | Named<FieldFile>;

/** What a file holds: one of ours, or a conversation in which several stand. */
function filesOf(folder: string, name: string, known: Known): Judged[] {
  const read = bytesOf(join(folder, name), name);
  if ('problem' in read) return [{ name, ...read }];
  const found = readFieldBytes(read.bytes);
  return found.map((field, i) => ({
    name: found.length === 1 ? name : `${name}, message ${i + 1}`,
    ...('problem' in field ? field : judged(field.file, known)),
  }));
}

function judged(file: FieldFile, known: Known): { readonly file: FieldFile } | Refusal {
  const path = file.kind === 'visit' ? `systems/${file.system}/` : file.page;
  const now = known.current(path);
  if (now !== undefined)
    return {
      file:
        file.kind === 'visit' ? { ...file, system: now.split('/')[1]! } : { ...file, page: now },
    };
  const entry = path.split('/').slice(0, 2).join('/');
  return {
    problem: `there is no entry ${entry} here`,
    allowed: entry.startsWith('systems/')
      ? `a system of this reference: ${known.systems.slice(0, 6).join(', ')} and so on; for a firm's own, say --firm`
      : 'an entry of this reference; for a firm’s own, say --firm',
  };
}

function bytesOf(path: string, name: string): { readonly bytes: Uint8Array } | Refusal {
  const A_FILE = 'a plain file ending in .json or .txt';
  try {
    const status = lstatSync(path);
    if (status.isSymbolicLink()) return { problem: 'it is a link', allowed: A_FILE };
    if (status.isDirectory()) return { problem: 'it is a folder', allowed: A_FILE };
    if (!status.isFile()) return { problem: 'it is no plain file', allowed: A_FILE };
    if (!READ.test(name)) return { problem: 'its name has another ending', allowed: A_FILE };
    if (status.size > MOST_FIELD_BYTES) return tooLarge(status.size);
    // Between looking and opening it may have become a link, a pipe or larger.
    const opened = openSync(path, constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK);
    try {
      if (!fstatSync(opened).isFile()) return { problem: 'it is no plain file', allowed: A_FILE };
      const bytes = new Uint8Array(Math.min(fstatSync(opened).size, MOST_FIELD_BYTES) + 1);
      let length = 0;
      for (let read = -1; read !== 0 && length < bytes.length; length += read)
        read = readSync(opened, bytes, length, bytes.length - length, null);
      return { bytes: bytes.subarray(0, length) };
    } finally {
      closeSync(opened);
    }
  } catch {
    return { problem: 'it cannot be read', allowed: 'a file that whoever gathers may read' };
  }
}

/** Visits that are counted, with those that were counted before. */
export interface Counted {
  readonly visits: readonly CountedVisit[];
  /** How many of them are new. */
  readonly added: number;
  readonly refused: readonly Refused[];
}

/** Adds visits to those counted before: each once, by its id. */
export function countVisits(before: readonly CountedVisit[], visits: Gathered['visits']): Counted {
  const counted = new Map(before.map((visit) => [visit.id, visit]));
  const refused: Refused[] = [];
  let added = 0;
  for (const { name, file } of visits) {
    const { id, on, system, history, cause: family, minutes } = file;
    const visit: CountedVisit = { id, on, system, history, family, minutes };
    const was = counted.get(id);
    if (was) {
      if (was.family !== family || was.history !== history || was.system !== system)
        refused.push({
          name,
          problem: `this visit is counted already, as ${was.family} in ${was.system}`,
          allowed: 'the same again; to correct it, take its line out of the counts and gather anew',
        });
    } else if (counted.size >= MOST_VISITS)
      refused.push({
        name,
        problem: `${MOST_VISITS} visits are counted`,
        allowed: 'no more: take the oldest lines out of the counts',
      });
    else {
      counted.set(id, visit);
      added++;
    }
  }
  return { visits: [...counted.values()], added, refused };
}

/** Reports of one entry. */
export interface EntryReports {
  /** As `systems/combi-two-wire`. */
  readonly entry: string;
  readonly reports: Gathered['reports'];
}

/** Reports by entry, those most often reported first. */
export function reportsByEntry(reports: Gathered['reports']): EntryReports[] {
  const entryOf = ({ file }: Named<Report>) => file.page.split('/').slice(0, 2).join('/');
  return [...Map.groupBy(reports, entryOf)]
    .map(([entry, own]) => ({ entry, reports: own }))
    .sort((a, b) => b.reports.length - a.reports.length || (a.entry < b.entry ? -1 : 1));
}

/** What steers a terminal or turns a line about: control characters, marks of direction. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Co}\p{Cs}]/gu;

/** Foreign text as it may stand in a terminal: on one line, whatever would steer it written out. */
export const shown = (text: string, most = 300): string => {
  const plain = text
    .replaceAll(/\s*\n\s*/g, ' / ')
    .replaceAll(UNSEEN, (one) => `\\u${one.codePointAt(0)!.toString(16).padStart(4, '0')}`);
  return plain.length > most ? `${plain.slice(0, most)} …` : plain;
};
