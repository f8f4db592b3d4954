import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { jsonSchemaOf, KINDS, type Kind } from '../entries/index.ts';
import { firmFolder, firmJsonSchema } from '../firm/index.ts';
import { firmSchemas } from './firm-schemas.ts';
import { readOptions, runCommand, takeFirm, text } from './options.ts';

const USAGE = `npm run schemas [-- --firm folder]
  writes the JSON Schemas that editors complete entries by`;

/** Schemas of the reference's own entries, and of a firm's settings, by file name. */
const ours = () =>
  new Map(
    [
      ...(Object.keys(KINDS) as Kind[]).map((kind) => [kind, jsonSchemaOf(kind)] as const),
      ['firm', firmJsonSchema()] as const,
    ].map(([name, json]) => [`${name}.schema.json`, `${JSON.stringify(json, null, 2)}\n`]),
  );

await runCommand(async () => {
  takeFirm(text(readOptions(process.argv.slice(2), { firm: 'value' }, USAGE), 'firm'));
  const firm = firmFolder();
  const folder = join(firm ?? 'public', 'schemas');
  mkdirSync(folder, { recursive: true });
  for (const [file, json] of firm === undefined ? ours() : firmSchemas()) {
    writeFileSync(join(folder, file), json);
    console.log(join(folder, file));
  }
  return undefined;
});
