import { createHash } from 'node:crypto';
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { relative } from 'node:path';
import { z } from 'zod';
import { type SearchProblem, type SearchResult, walkTree } from '../diagnosis/search/index.ts';
import { asTyped } from '../folder/index.ts';
import { treeFrom, treeText } from './tree-text.ts';

/** Name of the file, in a content folder or a firm's. */
export const LOCK_FILE = 'sequences.lock.json';
/** Make of the file; another is not read. */
const FORMAT = 1;
/** The command that writes the lock file anew. */
const MEND = asTyped('npm run build -- --prove');
/** Share of the minutes by which a sum may differ for the order of its terms. */
const ROUNDING = 1e-9;

const Minutes = z.number().min(0);

/** One solved problem, on a line of its own. */
const Line = z.strictObject({
  /** System and start, for people; the first of several that have the same problem. */
  for: z.string(),
  /** Hash of the problem, see {@link problemHash}. */
  problem: z.string(),
  /** Expected minutes of the tree. */
  minutes: Minutes,
  /** No tree takes fewer minutes; the tree's own where it is proven best. */
  bound: Minutes,
  /** States that the search expanded. */
  states: z.int().min(0),
  /** Code that found it, see `codeKey`. */
  code: z.string(),
  /** See `treeText`. */
  tree: z.string(),
  /** Hash of the line's other fields but `for`: what nobody could tell by walking the tree. */
  seal: z.string(),
});
export type LockLine = z.infer<typeof Line>;

/** Problems that ship solved, from the files of one or two folders. */
export interface Lock {
  /**
   * What is locked for a problem, walked and found right; undefined where there is none. What
   * is refused is told of once.
   */
  readonly find: (problem: SearchProblem) => LockedResult | undefined;
  /** Whether nothing that was asked for had to be refused. */
  readonly isSound: boolean;
  /** Lines of a file that no problem has asked for. */
  readonly unused: (file: string) => readonly LockLine[];
  /** What the files say that a page can show: problems, trees, minutes and bounds. */
  readonly figures: string;
}

/** A locked result, the code that found it, and the file that it stands in. */
export interface LockedResult extends SearchResult {
  readonly code: string;
  readonly file: string;
}

/** No file, nothing locked. */
export const NO_LOCK: Lock = {
  find: () => undefined,
  isSound: true,
  unused: () => [],
  figures: '',
};

/**
 * Opens lock files; one that is not there holds nothing.
 * @param tell how what is refused is told of: file, line, which, why, what to do
 */
export function openLock(files: readonly string[], tell: (line: string) => void): Lock {
  let isSound = true;
  const refuse = (line: string) => {
    isSound = false;
    tell(line);
  };
  const lines = files.flatMap((file) => readLock(file, refuse));
  const asked = new Set<string>();
  const found = new Map<string, LockedResult | undefined>();
  return {
    find(problem) {
      const hash = problemHash(problem);
      asked.add(hash);
      if (!found.has(hash)) found.set(hash, firstRight(lines, hash, problem, refuse));
      return found.get(hash);
    },
    get isSound() {
      return isSound;
    },
    unused: (file) =>
      lines.flatMap((one) => (one.file === file && !asked.has(one.line.problem) ? one.line : [])),
    figures: JSON.stringify(
      lines.map(({ line: { problem, minutes, bound, tree } }) => [problem, minutes, bound, tree]),
    ),
  };
}

/** A line and where it stands. */
interface PlacedLine {
  readonly line: LockLine;
  readonly file: string;
  /** `file:row`, as terminals make it a link. */
  readonly place: string;
}

function firstRight(
  lines: readonly PlacedLine[],
  hash: string,
  problem: SearchProblem,
  tell: (line: string) => void,
): LockedResult | undefined {
  for (const { line, file, place } of lines) {
    if (line.problem !== hash) continue;
    try {
      return { ...resultOf(line, problem), code: line.code, file };
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      tell(
        `${place}: ${line.for} is refused: ${error.message}. It is searched for anew within the build’s budget; to write it anew: ${MEND}`,
      );
    }
  }
  return undefined;
}

/**
 * What a line says of a problem, once its tree is walked.
 * @throws RangeError that says what is wrong with it
 */
export function resultOf(line: LockLine, problem: SearchProblem): SearchResult {
  const tree = treeFrom(problem, line.tree);
  const { minutes, bound: lowerBound } = line;
  const walked = walkTree(problem, tree).minutes;
  if (!(Math.abs(walked - minutes) <= ROUNDING * walked))
    throw new RangeError(`it says ${minutes} minutes, but its tree takes ${walked}`);
  if (lowerBound > minutes)
    throw new RangeError(`its bound of ${lowerBound} is above its ${minutes} minutes`);
  if (sealOf(line) !== line.seal)
    throw new RangeError('it was changed since it was written, its seal is of another line');
  const proven = lowerBound === minutes;
  return {
    tree,
    minutes,
    lowerBound,
    proven,
    gap: proven ? 0 : 1 - lowerBound / minutes,
    expanded: line.states,
  };
}

/** A result as a line. */
export function lineOf(
  about: string,
  problem: SearchProblem,
  { tree, minutes, lowerBound, expanded }: SearchResult,
  code: string,
): LockLine {
  const line = {
    for: about,
    problem: problemHash(problem),
    minutes,
    bound: lowerBound,
    states: expanded,
    code,
    tree: treeText(tree),
  };
  return { ...line, seal: sealOf(line) };
}

/** The seal that a line should bear. */
export const sealOf = (line: Omit<LockLine, 'seal'>): string =>
  hashOf([line.problem, line.minutes, line.bound, line.states, line.code, line.tree]).slice(0, 16);

/** Writes a lock file: each problem once and on a line of its own, by what it is for. */
export function writeLock(file: string, lines: Iterable<LockLine>): void {
  const once = new Map([...lines].map((line) => [line.problem, line]));
  const sorted = [...once.values()].sort((a, b) =>
    `${a.for} ${a.problem}` < `${b.for} ${b.problem}` ? -1 : 1,
  );
  const text = sorted.map((line) => `\n${JSON.stringify(line)}`).join(',');
  // Written beside its place and moved there, so that no build reads half a file.
  writeFileSync(`${file}.new`, `{"format":${FORMAT},"sequences":[${text}\n]}\n`);
  renameSync(`${file}.new`, file);
}

function readLock(file: string, tell: (line: string) => void): PlacedLine[] {
  const name = relative('.', file);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return [];
    tell(`${name} is passed over: it cannot be read (${(error as Error).message})`);
    return [];
  }
  const refuse = (why: string): [] => {
    tell(
      `${name} is passed over: ${why}. Its sequences are searched for anew within the build’s budget. Take it from the repository again, or write it anew: ${MEND}`,
    );
    return [];
  };
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch (error) {
    return refuse(`it is not whole JSON (${(error as Error).message})`);
  }
  const whole = z.object({ format: z.unknown(), sequences: z.unknown() }).safeParse(read);
  if (!whole.success) return refuse('it is no lock of sequences');
  const { format, sequences } = whole.data;
  if (format !== FORMAT)
    return refuse(`it is of format ${JSON.stringify(format)}, and this version reads ${FORMAT}`);
  if (!Array.isArray(sequences)) return refuse('it holds no list of sequences');
  return sequences.flatMap((entry: unknown, i): PlacedLine | [] => {
    const { success, data: line, error } = Line.safeParse(entry);
    if (success) return { line, file, place: `${name}:${rowOf(text, line.problem)}` };
    const [issue] = error.issues;
    tell(
      `${name}: sequence ${i + 1} is refused: ${[...(issue?.path ?? []), issue?.message].join(' ')}. To write it anew: ${MEND}`,
    );
    return [];
  });
}

const rowOf = (text: string, hash: string): number =>
  text.slice(0, text.indexOf(JSON.stringify(hash))).split('\n').length;

const hashes = new WeakMap<SearchProblem, string>();

/**
 * Names a problem by all that its trees depend on and nothing else: what tests are called is
 * left out, and so are the budget and the code, which say how far a search went, not what is
 * true of the problem.
 */
export function problemHash(problem: SearchProblem): string {
  const known = hashes.get(problem);
  if (known !== undefined) return known;
  const { faults, tests, modeMinutes, placeMinutes, openingMode, rules, start } = problem;
  const hash = hashOf([
    faults.map(({ weight, repair }) => [weight, repair]),
    tests.map(({ minutes, mode, place, answers }) => [minutes, mode, place, Array.from(answers)]),
    modeMinutes,
    placeMinutes,
    openingMode,
    rules,
    [start.mode, start.opened],
  ]).slice(0, 40);
  hashes.set(problem, hash);
  return hash;
}

const hashOf = (value: unknown): string =>
  createHash('sha256').update(JSON.stringify(value)).digest('hex');
