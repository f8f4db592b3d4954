import type { JsonSchema } from '../entries/kinds.ts';

/** How a value is entered. */
export type Field =
  | { readonly kind: 'text' | 'number' | 'yes or no' | 'yaml' }
  | { readonly kind: 'choice'; readonly of: readonly (string | number)[] }
  | { readonly kind: 'choices'; readonly of: readonly string[] }
  | { readonly kind: 'list'; readonly item: JsonSchema; readonly exactly: number | undefined }
  | {
      readonly kind: 'group';
      readonly of: Readonly<Record<string, JsonSchema>>;
      readonly required: readonly string[];
    }
  | {
      /** A group whose other keys hang on one of them, as a rule's on its check. */
      readonly kind: 'variant';
      readonly by: string;
      readonly of: Readonly<Record<string, JsonSchema>>;
    }
  | {
      readonly kind: 'record';
      readonly value: JsonSchema;
      readonly keys: readonly string[] | undefined;
      readonly key: string;
    };

/** Whether a value has values inside it, and is no line by itself. */
export const isWhole = ({ kind }: Field): boolean =>
  kind === 'group' || kind === 'variant' || kind === 'record' || kind === 'list';

/** How a value of a schema is entered; what has no form of its own is entered as YAML. */
export function fieldOf(schema: JsonSchema): Field {
  const choices = choicesOf(schema);
  if (choices) return { kind: 'choice', of: choices };
  const { type, items, properties, required = [], additionalProperties: values } = schema;
  const variants = variantsOf(schema);
  if (variants) return variants;
  if (type === 'string' || schema.anyOf?.every((one) => one.type === 'string'))
    return { kind: 'text' };
  if (type === 'number' || type === 'integer') return { kind: 'number' };
  if (type === 'boolean') return { kind: 'yes or no' };
  if (type === 'array' && items) {
    const words = choicesOf(items);
    if (words?.every((word) => typeof word === 'string')) return { kind: 'choices', of: words };
    const { minItems, maxItems } = schema;
    return { kind: 'list', item: items, exactly: minItems === maxItems ? minItems : undefined };
  }
  if (type === 'object' && properties) return { kind: 'group', of: properties, required };
  if (type === 'object' && typeof values === 'object') {
    const keys = schema.propertyNames?.enum as readonly string[] | undefined;
    return {
      kind: 'record',
      value: values,
      keys,
      key: schema.propertyNames?.description ?? 'Name',
    };
  }
  return { kind: 'yaml' };
}

/** A schema with what its reference into another stands for. */
export function resolvedIn({ $defs = {} }: JsonSchema, schema: JsonSchema): JsonSchema {
  const name = /^#\/\$defs\/(.+)$/.exec(schema.$ref ?? '')?.[1];
  return name === undefined ? schema : { ...$defs[name], ...schema };
}

/** The group of a variant's other keys, where the one they hang on is a word. */
export function groupOf({ by, of }: Field & { kind: 'variant' }, word: string): JsonSchema {
  const { properties = {}, ...one } = of[word] ?? {};
  const { [by]: _, ...others } = properties;
  const required = (one.required ?? []).filter((key) => key !== by);
  return { ...one, type: 'object', properties: others, required };
}

/** The words or numbers that a value is one of, where it is. */
function choicesOf({ enum: words, anyOf }: JsonSchema): readonly (string | number)[] | undefined {
  const all = words ?? (anyOf?.every((one) => 'const' in one) ? anyOf.map((one) => one.const) : []);
  return all && all.length > 0 ? (all as (string | number)[]) : undefined;
}

/** Groups told apart by one key that says which it is, where a schema is of such. */
function variantsOf({ oneOf }: JsonSchema): (Field & { kind: 'variant' }) | undefined {
  const [first] = oneOf ?? [];
  const by = Object.entries(first?.properties ?? {}).find(([, { const: word }]) => word)?.[0];
  if (!oneOf || by === undefined) return undefined;
  const named = oneOf.map((one) => [String(one.properties?.[by]?.const), one] as const);
  return { kind: 'variant', by, of: Object.fromEntries(named) };
}

/** A value to begin with, where one of a schema is added. */
export function emptyOf(schema: JsonSchema): unknown {
  const field = fieldOf(schema);
  switch (field.kind) {
    case 'choice':
      return field.of[0];
    case 'choices':
      return [];
    case 'list':
      return field.exactly === undefined
        ? []
        : Array.from({ length: field.exactly }, () => emptyOf(field.item));
    case 'group':
      return Object.fromEntries(
        field.required.map((key) => [key, emptyOf(field.of[key] ?? {})] as const),
      );
    case 'variant': {
      const [[word, one]] = Object.entries(field.of) as [[string, JsonSchema]];
      return { ...(emptyOf(one) as object), [field.by]: word };
    }
    case 'record':
      return {};
    case 'number':
      return 1;
    case 'yes or no':
      return true;
    default:
      return '';
  }
}
