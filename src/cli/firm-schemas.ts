import { type JsonSchema, jsonSchemaOf, KINDS, type Kind } from '../entries/index.ts';
import { firmJsonSchema } from '../firm/index.ts';

/** JSON Schemas for the editors of a firm's folder, by file name. */
export function firmSchemas(): Map<string, string> {
  const kinds = Object.keys(KINDS) as Kind[];
  const schemas: [string, JsonSchema][] = [
    ['firm.schema.json', firmJsonSchema()],
    ...kinds.map((kind): [string, JsonSchema] => [`${kind}.schema.json`, layered(kind)]),
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
