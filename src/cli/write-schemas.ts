import { mkdirSync, writeFileSync } from 'node:fs';
import { jsonSchemaOf, KINDS, type Kind } from '../entries/index.ts';

const FOLDER = new URL('../../public/schemas/', import.meta.url);

mkdirSync(FOLDER, { recursive: true });
for (const kind of Object.keys(KINDS) as Kind[]) {
  const file = `${kind}.schema.json`;
  writeFileSync(new URL(file, FOLDER), `${JSON.stringify(jsonSchemaOf(kind), null, 2)}\n`);
  console.log(`public/schemas/${file}`);
}
