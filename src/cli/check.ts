import { CATALOGUE, formatProblems, type Problem } from '../entries/index.ts';
import { checkSources, located } from '../firm/index.ts';
import { readOptions, runCommand, takeFirm, text, WrongUse } from './options.ts';
import { LONG, startProgress } from './progress.ts';

const USAGE = `npm run check [-- folder]           check the entries of a content folder (default: PROVELINE_CONTENT, or content)
npm run check -- --firm folder      check a firm's folder laid over them
npm run check -- --overdue-fails    the same, and a review that is overdue fails
npm run check -- --explain code     what a problem's code means and what to do`;

/** Runs the command and returns its exit code: 0 in order, 1 problems. */
async function run(): Promise<number> {
  const options = { explain: 'value', firm: 'value', 'overdue-fails': 'flag' } as const;
  const asked = readOptions(process.argv.slice(2), options, USAGE);
  const code = text(asked, 'explain');
  if (asked.words.length > (code === undefined ? 1 : 0)) throw new WrongUse(USAGE);
  if (code !== undefined) return explain(code);
  if (asked.words[0] !== undefined) process.env.PROVELINE_CONTENT = asked.words[0];
  takeFirm(text(asked, 'firm'));
  const overdue = asked.options['overdue-fails'] === true ? ({ overdue: 'fail' } as const) : {};
  const progress = startProgress({ stages: 1, quietFor: LONG });
  const { files, problems, warnings } = await progress.stage(
    'Systems simulated, then judged',
    (step) => checkSources({ ...overdue, step }),
  );
  progress.end();
  const told = [...problems, ...warnings];
  if (told.length > 0) console.log(`${formatProblems(told.map(located))}\n`);
  console.log(summary(problems, warnings, files));
  return problems.length > 0 ? 1 : 0;
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
  console.log(`${code}: ${title}\n${why}\nTo put it right: ${mend}`);
  return 0;
}

await runCommand(run);
