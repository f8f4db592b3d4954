import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { relative } from 'node:path';
import { formatProblems } from '../entries/index.ts';
import { located } from '../firm/index.ts';
import { cablesYaml, formatLine, linksYaml, readCables, withKey } from '../tables/index.ts';
import { readOptions, runCommand, takeFirm, text, WrongUse } from './options.ts';
import { checkedWith, ownSystem } from './own-system.ts';

const USAGE = `npm run import -- table.csv --system NAME [--firm folder]
  writes the cables and links of a system from a table: from, core, to, cable
  and, where wanted, kind, size, earth size, length, sleeve, why`;

async function run(): Promise<number> {
  const asked = readOptions(process.argv.slice(2), { firm: 'value', system: 'value' }, USAGE);
  const [table, ...more] = asked.words;
  const id = text(asked, 'system');
  if (!table || !id || more.length > 0) throw new WrongUse(USAGE);
  if (!existsSync(table)) throw new Error(`There is no file ${table}`);
  takeFirm(text(asked, 'firm'));
  const system = ownSystem(id);
  const csv = new TextDecoder('utf-8', { fatal: false }).decode(readFileSync(table));
  const { cables, links, lines, problems } = readCables(csv, system.ground);
  const refused = problems.map(formatLine);
  const joined = withKey(system.text, 'cables', cablesYaml(cables), 'modes');
  const written = withKey(joined, 'links', linksYaml(links), 'modes');
  const found = refused.length === 0 ? checkedWith(system.file, written) : [];
  for (const problem of found) {
    const line = lineOf(problem.path, lines);
    if (line !== undefined) refused.push(formatLine({ line, ...problem }));
  }
  if (refused.length > 0) {
    console.log(`${refused.join('\n\n')}\n`);
    console.log(`${count(refused.length)} not placed; nothing is written`);
    return 1;
  }
  writeFileSync(system.file, written);
  const cores = Object.values(cables).reduce((n, cable) => n + Object.keys(cable.cores).length, 0);
  console.log(
    `${Object.keys(cables).length} cables with ${cores} cores, and ${links.length} links, in ${relative('.', system.file)}`,
  );
  if (found.length === 0) return 0;
  console.log(
    `\nThe wiring is in. The entry is not yet in order:\n\n${formatProblems(found.map(located))}`,
  );
  return 1;
}

/** Line of the table that a problem's path inside the entry came from. */
function lineOf(path: string, lines: ReadonlyMap<string, number>): number | undefined {
  const within = [...lines.keys()]
    .filter((key) => path === key || path.startsWith(`${key}.`) || path.startsWith(`${key}[`))
    .sort((a, b) => b.length - a.length);
  return within[0] === undefined ? undefined : lines.get(within[0]);
}

const count = (n: number) => (n === 1 ? '1 line' : `${n} lines`);

await runCommand(run);
