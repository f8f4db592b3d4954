import { writeFileSync } from 'node:fs';
import { among } from '../entries/index.ts';
import { checkSources } from '../firm/index.ts';
import { writeCables } from '../tables/index.ts';
import { readOptions, runCommand, takeFirm, text, WrongUse } from './options.ts';

const USAGE = `npm run export -- --system NAME [--firm folder] [--out table.csv]
  writes the cables of a system as a table, a line for each core`;

async function run(): Promise<undefined> {
  const options = { firm: 'value', system: 'value', out: 'value' } as const;
  const asked = readOptions(process.argv.slice(2), options, USAGE);
  const id = text(asked, 'system');
  if (!id || asked.words.length > 0) throw new WrongUse(USAGE);
  takeFirm(text(asked, 'firm'));
  const { systems } = checkSources().entries;
  const system = systems.get(id);
  if (!system) {
    const { suggestion, allowed } = among(id, systems.keys());
    const meant = suggestion ? `; did you mean ${suggestion}?` : '';
    throw new Error(`There is no system “${id}” in order${meant}\n  allowed  ${allowed}`);
  }
  const table = writeCables(system.data);
  const out = text(asked, 'out');
  if (out === undefined) process.stdout.write(table);
  else {
    writeFileSync(out, table);
    console.log(`${table.split('\n').length - 2} lines in ${out}`);
  }
  return undefined;
}

await runCommand(run);
