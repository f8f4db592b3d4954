import type { JsonSchema } from './kinds.ts';
import type { Path } from './types.ts';

/**
 * The schemas that govern the value at a path. More than one where the author may choose
 * between forms; a form whose fixed words (an element's `kind`) differ from the data is out.
 */
export function schemasAt(root: JsonSchema, data: unknown, path: Path): readonly JsonSchema[] {
  let schemas = formsOf(root, root, data);
  let value = data;
  for (const part of path) {
    const name = String(part);
    value = child(value, part);
    schemas = schemas.flatMap((schema) => {
      const inner =
        schema.properties?.[name] ??
        (typeof part === 'number' ? schema.items : schema.additionalProperties);
      return typeof inner === 'object' ? formsOf(root, inner, value) : [];
    });
  }
  return schemas;
}

/** Keys that may stand in the value at a path; for a free record, its fixed key words. */
export function keysAt(root: JsonSchema, data: unknown, path: Path): readonly string[] {
  const keys = schemasAt(root, data, path).flatMap((schema) => [
    ...Object.keys(schema.properties ?? {}),
    ...(schema.propertyNames?.enum ?? []).map(String),
  ]);
  return [...new Set(keys)];
}

/** What may be written at a path, in a few words: its choices, its keys, or its type and meaning. */
export function describeAt(root: JsonSchema, data: unknown, path: Path): string {
  const parent = schemasAt(root, data, path.slice(0, -1));
  const name = String(path.at(-1));
  const said = parent.map((schema) => schema.properties?.[name]?.description).find(Boolean);
  const schemas = schemasAt(root, data, path);
  const choices = schemas.flatMap(choicesOf);
  if (choices.length > 0) return [...new Set(choices)].join(', ');
  const keys = schemas.flatMap((schema) => Object.keys(schema.properties ?? {}));
  if (keys.length > 0) return `the keys ${[...new Set(keys)].join(', ')}`;
  const type = schemas.map((schema) => schema.type).find(Boolean) ?? 'value';
  const note = said ?? schemas[0]?.description;
  return `${TYPE_WORDS[type] ?? type}${note === undefined ? '' : ` (${note})`}`;
}

/** What a YAML value of a JSON type is called in messages. */
export const TYPE_WORDS: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  integer: 'a whole number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'keys and values',
  record: 'keys and values',
  null: 'nothing',
  undefined: 'nothing',
};

/** The value under a key or index, if there is one. */
export function child(value: unknown, part: PropertyKey): unknown {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, part)) return undefined;
  return (value as Record<PropertyKey, unknown>)[part];
}

const choicesOf = (schema: JsonSchema): string[] =>
  (schema.enum ?? (schema.const === undefined ? [] : [schema.const])).map(String);

function formsOf(root: JsonSchema, schema: JsonSchema, data: unknown): readonly JsonSchema[] {
  if (schema.$ref !== undefined) {
    const target = schema.$ref === '#' ? root : root.$defs?.[schema.$ref.replace('#/$defs/', '')];
    return target ? formsOf(root, target, data) : [];
  }
  const forms = schema.oneOf ?? schema.anyOf;
  if (!forms) return [schema];
  const open = forms.flatMap((form) => formsOf(root, form, data));
  const fitting = open.filter((form) => fixedWordsFit(form, data));
  return fitting.length > 0 ? fitting : open;
}

function fixedWordsFit(form: JsonSchema, data: unknown): boolean {
  const fixed = Object.entries(form.properties ?? {}).filter(([, p]) => p.const !== undefined);
  return fixed.length > 0 && fixed.every(([name, p]) => child(data, name) === p.const);
}
