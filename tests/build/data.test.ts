import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { IndexData, StandardsData, SystemData } from '../../src/data/index.ts';
import { DIST, filesOfSite } from '../support/site-folder.ts';

const files = filesOfSite().filter((path) => path.startsWith('data/') && path.endsWith('.json'));
const read = (path: string): unknown => JSON.parse(readFileSync(join(DIST, path), 'utf8'));
const index = IndexData.parse(read('data/index.json'));
/** Names that a system had, as its data says. */
const formerly = (data: string) => SystemData.parse(read(`data/${data}`)).formerly;

describe('open data as published', () => {
  test('its index names each system’s data once; what else lies there has a former name', () => {
    const named = index.systems.map(({ data }) => `data/${data}`).toSorted();
    expect(named.length).toBeGreaterThan(0);
    const there = files.filter((path) => path.startsWith('data/systems/'));
    const former = index.systems.flatMap(({ data }) => formerly(data).map((id) => `systems/${id}`));
    expect(there).toEqual([...named, ...former.map((path) => `data/${path}.json`)].toSorted());
    expect(former.length).toBeGreaterThan(0);
  });

  test.each(index.systems)('$id is what its schema says', ({ id, title, data }) => {
    const system = SystemData.parse(read(`data/${data}`));
    expect([system.id, system.title]).toEqual([id, title]);
  });

  test('the schemas beside it are those it is checked by', () => {
    expect(read('data/schemas/index.schema.json')).toEqual(z.toJSONSchema(IndexData));
    expect(read('data/schemas/system-data.schema.json')).toEqual(z.toJSONSchema(SystemData));
    expect(read('data/schemas/standards-data.schema.json')).toEqual(z.toJSONSchema(StandardsData));
  });

  test('the house standards are what their schema says, with a verdict on every system', () => {
    const { standards, verdicts } = StandardsData.parse(read(`data/${index.standards}`));
    const pairs = index.systems.flatMap(({ id }) => standards.map((one) => `${id} ${one.id}`));
    expect(verdicts.map(({ system, standard }) => `${system} ${standard}`)).toEqual(pairs);
    expect(verdicts.filter(({ state }) => state === 'holds').length).toBeGreaterThan(50);
  });

  test('each file says where its schema lies', () => {
    const described = files.filter((path) => !path.startsWith('data/schemas/'));
    for (const path of described) {
      const { $schema } = z.looseObject({ $schema: z.string() }).parse(read(path));
      expect(files).toContain(join('data', path.slice('data/'.length), '..', $schema));
    }
  });

  test('each system has a page, and each system’s page has its data', () => {
    const pages = filesOfSite().filter((path) => /^systems\/[^/]+\/index\.html$/.test(path));
    const named = index.systems.flatMap(({ id, data }) => [id, ...formerly(data)]);
    expect(pages).toEqual(named.map((id) => `systems/${id}/index.html`).toSorted());
  });
});

describe('the schemas of entries', () => {
  const schemas = filesOfSite().filter((path) => /^schemas\/.*\.json$/.test(path));

  test('are JSON Schemas of objects that allow nothing unknown', () => {
    expect(schemas.length).toBeGreaterThan(4);
    for (const path of schemas)
      expect([path, read(path)]).toMatchObject([
        path,
        { type: 'object', additionalProperties: false },
      ]);
  });
});
