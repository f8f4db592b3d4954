import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  fileSystem,
  type JsonSchema,
  jsonSchemaOf,
  KINDS,
  type Kind,
  withFeatures,
} from '../entries/index.ts';
import { firmJsonSchema, readFirm } from '../firm/index.ts';
import { homeFolder } from '../folder/index.ts';

/** The folder of the reference's own JSON Schemas. */
export const SCHEMAS = join(homeFolder(), 'public/schemas');

/**
 * Writes the JSON Schemas for the editors of a firm's folder into its `schemas/`.
 * @returns the files written
 */
export function writeFirmSchemas(firm: string): string[] {
  const folder = join(firm, 'schemas');
  mkdirSync(folder, { recursive: true });
  const features = Object.keys(readFirm(firm, fileSystem).firm?.settings.features ?? {});
  return [...firmSchemas(features)].map(([name, json]) => {
    writeFileSync(join(folder, name), json);
    return join(folder, name);
  });
}

/** JSON Schemas for the editors of a firm's folder, by file name. */
function firmSchemas(features: readonly string[]): Map<string, string> {
  const kinds = Object.keys(KINDS) as Kind[];
  const schemas: [string, JsonSchema][] = [
    ['firm.schema.json', firmJsonSchema()],
    ...kinds.map((kind): [string, JsonSchema] => [
      `${kind}.schema.json`,
      withFeatures(layered(kind), features),
    ]),
  ];
  return new Map(schemas.map(([file, json]) => [file, `${JSON.stringify(json, null, 2)}\n`]));
}

/**
 * What a firm may write in an entry of this kind: beside its own keys what it replaces or
 * extends; an entry that extends another need not repeat what that one says.
 */
function layered(kind: Kind): JsonSchema {
  const { required = [], properties, ...rest } = jsonSchemaOf(kind);
  const name = { type: 'string' } as const;
  return {
    ...rest,
    properties: {
      replaces: { ...name, description: 'The reference’s entry in whose place this one stands' },
      extends: { ...name, description: 'The entry that this one starts from and adds to' },
      ...properties,
    },
    anyOf: [{ required }, { required: ['extends'] }],
  };
}
