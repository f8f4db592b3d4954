import { relative } from 'node:path';
import { CATALOGUE, checkEntries, formatProblems, type Problem } from '../entries/index.ts';

const USAGE = `npm run check [-- folder]           check the entries of a content folder (default: PROVELINE_CONTENT, or content)
npm run check -- --overdue-fails    the same, and a review that is overdue fails
npm run check -- --explain code     what a problem's code means and what to do`;

const OVERDUE_FAILS = '--overdue-fails';

/** Runs the command and returns its exit code: 0 in order, 1 problems, 2 wrong use. */
function run(words: readonly string[]): number {
  if (words[0] === '--explain' && words.length === 2) return explain(words[1]!);
  const overdue = words.includes(OVERDUE_FAILS) ? 'fail' : 'warn';
  const [root = process.env.PROVELINE_CONTENT ?? 'content', ...more] = words.filter(
    (word) => word !== OVERDUE_FAILS,
  );
  if (more.length > 0 || root.startsWith('-')) {
    console.error(USAGE);
    return words[0] === '--help' ? 0 : 2;
  }
  const { files, problems, warnings } = checkEntries(root, undefined, { overdue });
  const told = [...problems, ...warnings];
  if (told.length > 0)
    console.log(`${formatProblems(told.map((problem) => located(problem, root)))}\n`);
  console.log(summary(problems, warnings, files));
  return problems.length > 0 ? 1 : 0;
}

/** The problem with its path from where the command runs, so that terminals make it a link. */
function located(problem: Problem, root: string): Problem {
  const file = problem.file === root ? root : relative('.', `${root}/${problem.file}`);
  return { ...problem, file };
}

/** One line: how many entries are in order, or how many problems there are; then warnings. */
function summary(
  problems: readonly Problem[],
  warnings: readonly Problem[],
  files: number,
): string {
  const inFiles = new Set(problems.map(({ file }) => file)).size;
  const first =
    problems.length === 0
      ? `${count(files, 'entry', 'entries')} in order`
      : `${count(problems.length, 'problem')} in ${count(inFiles, 'file')}`;
  return warnings.length === 0 ? first : `${first}, ${count(warnings.length, 'warning')}`;
}

const count = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;

function explain(code: string): number {
  const found = Object.entries(CATALOGUE).find(([known]) => known === code);
  if (!found) {
    console.error(`There is no code ${code}. Codes: ${Object.keys(CATALOGUE).join(', ')}`);
    return 2;
  }
  const [, { title, why, mend }] = found;
  console.log(`${code}: ${title}\n${why}\nTo mend it: ${mend}`);
  return 0;
}

process.exitCode = run(process.argv.slice(2));
