import { writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { jsonSchemaOf, KINDS, type Kind } from '../entries/index.ts';
import { firmFolder, firmJsonSchema } from '../firm/index.ts';
import { SCHEMAS, writeFirmSchemas } from './firm-schemas.ts';
import { readOptions, runCommand, takeFirm, text } from './options.ts';

const USAGE = `npm run schemas [-- --firm folder]
  writes the JSON Schemas that editors complete entries by`;

/** Writes the schemas of the reference's own entries and of a firm's settings. */
function writeOurs(): string[] {
  const schemas = [
    ...(Object.keys(KINDS) as Kind[]).map((kind) => [kind, jsonSchemaOf(kind)] as const),
    ['firm', firmJsonSchema()] as const,
  ];
  return schemas.map(([name, json]) => {
    const file = join(SCHEMAS, `${name}.schema.json`);
    writeFileSync(file, `${JSON.stringify(json, null, 2)}\n`);
    return relative('.', file);
  });
}

await runCommand(async () => {
  takeFirm(text(readOptions(process.argv.slice(2), { firm: 'value' }, USAGE), 'firm'));
  const firm = firmFolder();
  for (const file of firm === undefined ? writeOurs() : writeFirmSchemas(firm)) console.log(file);
  return undefined;
});
