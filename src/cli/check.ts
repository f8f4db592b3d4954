import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { FIRM_FILE } from '../../schemas/index.ts';
import {
  CATALOGUE,
  type Conflict,
  calendarDay,
  exceptionsText,
  fileSystem,
  formatProblems,
  type Problem,
  yearAfter,
} from '../entries/index.ts';
import {
  CONTENT,
  checkSources,
  FIRM_PREFIX,
  firmFolder,
  located,
  pathOf,
  readFirm,
} from '../firm/index.ts';
import { asTyped, typedPath } from '../folder/index.ts';
import { checkPublished, findingText } from '../publish/served/index.ts';
import { currentReleases } from '../releases/index.ts';
import { mistakesText } from './mistakes.ts';
import { readOptions, runCommand, takeFirm, text, WrongUse } from './options.ts';
import { LONG, startProgress } from './progress.ts';

const USAGE = `npm run check [-- folder]
  checks the entries of a content folder (default: PROVELINE_CONTENT, or content)
  --firm folder      a firm's folder, laid over them
  --overdue-fails    a review that is overdue fails
  --exceptions       also writes, as drafts, exceptions for the reference's systems that do not
                     meet the firm's standards
  --mistakes system  which slips of wiring that system's modes would pass over
  --published [URL]  whether that address serves a built site as it must, and nothing else;
                     without URL the one that firm.yaml says
  --explain code     what a problem's code means and what to do, and nothing else`;

/** Runs the command and returns its exit code: 0 in order, 1 problems. */
async function run(): Promise<number> {
  const options = {
    explain: 'value',
    firm: 'value',
    'overdue-fails': 'flag',
    exceptions: 'flag',
    mistakes: 'value',
    published: 'value',
  } as const;
  const asked = readOptions(process.argv.slice(2).flatMap(ownAddress), options, USAGE);
  const [code, published] = [text(asked, 'explain'), text(asked, 'published')];
  const alone = code !== undefined || published !== undefined;
  if (asked.words.length > (alone ? 0 : 1)) throw new WrongUse(USAGE);
  if (code !== undefined) return explain(code);
  takeFirm(text(asked, 'firm'));
  if (published !== undefined) return await tellPublished(published || firmAddress());
  const [content] = asked.words;
  if (content !== undefined) {
    if (existsSync(join(content, FIRM_FILE)))
      throw new Error(
        `${content} is the folder of a firm, as it holds ${FIRM_FILE}: npm run check -- --firm ${typedPath(content)}`,
      );
    process.env.PROVELINE_CONTENT = content;
  }
  const overdue = asked.options['overdue-fails'] === true ? ({ overdue: 'fail' } as const) : {};
  const progress = startProgress({ stages: 1, quietFor: LONG });
  const { files, problems, warnings, conflicts, entries } = await progress.stage(
    'Systems simulated, then judged',
    (step) => checkSources({ ...overdue, step }),
  );
  progress.end();
  await currentReleases();
  const told = [...problems, ...warnings];
  if (told.length > 0) console.log(`${formatProblems(told.map(located))}\n`);
  console.log(summary(problems, warnings, files));
  const mistakes = text(asked, 'mistakes');
  if (mistakes !== undefined && problems.length === 0) console.log(mistakesText(entries, mistakes));
  if (asked.options.exceptions === true) writeExceptions(conflicts);
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

/** Writes an entry over each system that a standard of the firm's is not met by. */
function writeExceptions(conflicts: readonly Conflict[]): void {
  const firm = firmFolder();
  if (firm === undefined)
    throw new Error('Say --firm FOLDER: exceptions from the firm’s standards stand in its folder');
  const from = calendarDay();
  const bySystem = Map.groupBy(
    conflicts.flatMap(({ standard, systems }) =>
      [...systems.keys()].map((id) => ({ id, standard })),
    ),
    ({ id }) => id,
  );
  for (const [id, own] of bySystem) {
    const file = join(firm, CONTENT, 'systems', `${id}.mdx`);
    const standards = own.map(({ standard }) => standard);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, exceptionsText(id, standards, { from, until: yearAfter(from) }), {
      flag: 'wx',
    });
    console.log(
      `${relative('.', file)}: excepted from ${standards.join(', ')}; say why, and who allows it`,
    );
  }
  if (bySystem.size === 0) console.log('Every system of the reference meets the firm’s standards.');
}

/** `--published` with no address after it: the firm's own. */
const ownAddress = (word: string, at: number, all: readonly string[]): string[] =>
  word === '--published' && (all[at + 1] ?? '-').startsWith('-') ? ['--published='] : [word];

/**
 * Where the firm says that its site is served.
 * @throws Error when there is no firm, or it does not say
 */
function firmAddress(): string {
  const folder = firmFolder();
  if (folder === undefined)
    throw new Error(
      'There is no address to ask: say --published URL, or --firm FOLDER of a firm whose firm.yaml says site: https://…',
    );
  const { firm, problems } = readFirm(folder, fileSystem);
  if (!firm) throw new Error(formatProblems(problems.map(located)));
  const { site, base } = firm.settings;
  if (site !== undefined) return new URL(base, site).href;
  throw new Error(
    `${pathOf(`${FIRM_PREFIX}${FIRM_FILE}`)} does not say where the site is served: write site: https://… in it, or say --published URL`,
  );
}

/** Says how a published address serves its site. */
async function tellPublished(address: string): Promise<number> {
  const progress = startProgress({ stages: 1, quietFor: LONG });
  const { base, asked, version, findings } = await progress.stage('Files asked for', (step) =>
    checkPublished(address, undefined, step),
  );
  progress.end();
  if (findings.length > 0)
    console.log(`${findings.map((one) => findingText(base, one)).join('\n\n')}\n`);
  const of = version === undefined ? '' : `, version ${version}`;
  const outcome =
    findings.length === 0 ? 'served as it must be' : count(findings.length, 'problem');
  console.log(`${base}${of}: ${outcome}, by ${count(asked, 'file')} asked for`);
  return findings.length === 0 ? 0 : 1;
}

const count = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;

function explain(code: string): number {
  const found = Object.entries(CATALOGUE).find(([known]) => known === code);
  if (!found) {
    console.error(`There is no code ${code}. Codes: ${Object.keys(CATALOGUE).join(', ')}`);
    return 2;
  }
  const [, { title, why, mend }] = found;
  console.log(`${code}: ${title}\n${why}\nTo put it right: ${asTyped(mend)}`);
  return 0;
}

await runCommand(run);
