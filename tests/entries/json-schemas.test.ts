import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { jsonSchemaOf, KINDS, type Kind } from '../../src/entries/index.ts';

const COMMITTED = new URL('../../public/schemas/', import.meta.url);
const kinds = Object.keys(KINDS) as Kind[];

describe('the published JSON Schemas', () => {
  it.each(kinds)('are current: %s (else: npm run schemas)', (kind) => {
    const committed = readFileSync(new URL(`${kind}.schema.json`, COMMITTED), 'utf8');
    expect(committed).toBe(`${JSON.stringify(jsonSchemaOf(kind), null, 2)}\n`);
  });

  it.each(kinds)('name their dialect and themselves, and no address: %s', (kind) => {
    const schema = jsonSchemaOf(kind);
    expect(schema).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      title: KINDS[kind].title,
      type: 'object',
      additionalProperties: false,
    });
    expect(schema.description).toContain(`${KINDS[kind].folder}/`);
    expect(JSON.stringify(schema)).not.toContain('"$id"');
  });

  it('ask only for what an author must write', () => {
    expect(jsonSchemaOf('term').required).toEqual(['title', 'summary']);
    expect(jsonSchemaOf('device').required).not.toContain('terminals');
  });
});
