import type { ProblemCode } from './catalogue.ts';
import { codeFrame } from './frame.ts';
import { nearest } from './nearest.ts';
import type { Path, Place, Problem } from './types.ts';

/** What was found at the place, what may stand there, and what the author probably meant. */
export interface Details {
  readonly found?: string | undefined;
  readonly allowed?: string | undefined;
  readonly suggestion?: string | undefined;
  readonly mend?: string | undefined;
  readonly beneath?: readonly string[] | undefined;
}

/** Makes a problem, with the lines around its place. */
export function makeProblem(
  code: ProblemCode,
  place: Place,
  path: Path,
  message: string,
  { found, allowed, suggestion, mend, beneath }: Details = {},
): Problem {
  return {
    code,
    file: place.source.file,
    position: place.position,
    path: pathText(path),
    message,
    ...(found === undefined ? {} : { found }),
    ...(allowed === undefined ? {} : { allowed }),
    ...(suggestion === undefined ? {} : { suggestion }),
    ...(mend === undefined ? {} : { mend }),
    ...(beneath === undefined ? {} : { beneath }),
    frame: codeFrame(place),
  };
}

/** At most this many allowed names are listed, the nearest first when there are more. */
const MOST_LISTED = 16;

/**
 * Details of a name that is not among the allowed ones.
 * @param write turns a bare name into what the author has to write, as in `A1.` before it.
 */
export function among(
  found: string,
  allowed: Iterable<string>,
  write: (name: string) => string = (name) => name,
): Details {
  const names = [...allowed];
  const near = nearest(found, names);
  const listed = names.slice(0, MOST_LISTED).join(', ');
  const more = names.length - MOST_LISTED;
  return {
    found: write(found),
    allowed: names.length === 0 ? 'none' : more > 0 ? `${listed} and ${more} more` : listed,
    suggestion: near === undefined ? undefined : write(near),
  };
}

/** A path as authors read it: `cables.W2.cores.BN[1]`. */
export function pathText(path: Path): string {
  return path
    .map((part) => (typeof part === 'number' ? `[${part}]` : `.${String(part)}`))
    .join('')
    .replace(/^\./, '');
}

/**
 * A problem as the command line prints it: place and code, what is wrong, the path inside
 * the entry, what was found and allowed, the nearest match, the mend, and the lines around it.
 */
export function formatProblem(problem: Problem): string {
  const { line, column } = problem.position;
  const text = [
    `${problem.file}:${line}:${column}  ${problem.warning ? 'warning: ' : ''}${problem.code}`,
    `  ${problem.message}`,
    problem.path && `  at       ${problem.path}`,
    problem.found !== undefined && `  found    ${problem.found}`,
    problem.allowed !== undefined && `  allowed  ${problem.allowed}`,
    problem.suggestion !== undefined && `  did you mean ${problem.suggestion}?`,
    problem.mend !== undefined && `  mend     ${problem.mend}`,
    ...beneathText(problem.beneath ?? []),
    problem.frame && `\n${problem.frame.replaceAll(/^(?=.)/gm, '  ')}`,
  ];
  return text.filter((part) => typeof part === 'string' && part !== '').join('\n');
}

/** At most this many of the things that follow from a problem are listed. */
const MOST_BENEATH = 4;

function beneathText(lines: readonly string[]): string[] {
  const more = lines.length - MOST_BENEATH;
  const listed = lines.slice(0, MOST_BENEATH).map((line) => `  - ${line}`);
  return more > 0 ? [...listed, `  - and ${more} more`] : listed;
}

/** All problems of a run as the command line prints them, a blank line between two. */
export const formatProblems = (problems: readonly Problem[]): string =>
  problems.map(formatProblem).join('\n\n');

/** What explains others of its file, and so stands before them. */
const CAUSES: readonly string[] = ['wiring-differs', 'key-used-twice', 'core-used-twice'];
const isCause = ({ code }: Problem): number => Number(CAUSES.includes(code));

/** A firm's settings, as problems name their file. */
const SETTINGS = 'firm/firm.yaml';

/** Settings that cannot be read, or say what is not there, show in every file: they come first. */
const isOfSettings = ({ file }: Problem): number => Number(file === SETTINGS);

/** What is to be read once all else is in order. */
const isOfReview = ({ code }: Problem): number => Number(code.startsWith('review-'));

/**
 * Problems in order of file, then place; settings and other causes before what follows from them,
 * and reviews behind all that is to be mended first; the same one found twice is kept once.
 */
export function inOrder(problems: readonly Problem[]): Problem[] {
  const distinct = new Map(problems.map((problem) => [keyOf(problem), problem]));
  return [...distinct.values()].sort(
    (a, b) =>
      isOfReview(a) - isOfReview(b) ||
      isOfSettings(b) - isOfSettings(a) ||
      compareText(a.file, b.file) ||
      isCause(b) - isCause(a) ||
      a.position.line - b.position.line ||
      a.position.column - b.position.column ||
      compareText(a.code, b.code),
  );
}

const keyOf = ({ code, file, position, path, message }: Problem) =>
  JSON.stringify([code, file, position.line, position.column, path, message]);

/** Order by code unit, the same on every machine. */
export const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
