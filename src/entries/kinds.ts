import { z } from 'zod';
import {
  Device,
  FEATURES,
  Module,
  Procedure,
  Standard,
  Symptom,
  System,
  Term,
} from '../../schemas/index.ts';
import type { Entries, Entry } from './types.ts';

/** The kinds of entry a content folder holds: where they stand and what they may say. */
export const KINDS = {
  system: { folder: 'systems', schema: System, title: 'System' },
  device: { folder: 'devices', schema: Device, title: 'Device' },
  symptom: { folder: 'symptoms', schema: Symptom, title: 'Symptom' },
  procedure: { folder: 'procedures', schema: Procedure, title: 'Procedure' },
  standard: { folder: 'standards', schema: Standard, title: 'House standard' },
  term: { folder: 'glossary', schema: Term, title: 'Glossary term' },
  module: { folder: 'modules', schema: Module, title: 'Module' },
} as const;
export type Kind = keyof typeof KINDS;

/** Folder and name of an entry, by which settings, drafts and records of reviews name it. */
export const entryKey = (folder: string, id: string): string => `${folder}/${id}`;

const DESCRIPTIONS: Readonly<Record<Kind, string>> = {
  system: 'Frontmatter of an entry in systems/: an arrangement of equipment and cables',
  device: 'Frontmatter of an entry in devices/: a kind of equipment and what lies inside it',
  symptom: 'Frontmatter of an entry in symptoms/: what a customer says or an engineer sees',
  procedure: 'Frontmatter of an entry in procedures/: how a job is done safely',
  standard: 'Frontmatter of an entry in standards/: a rule that every system is checked against',
  term: 'Frontmatter of an entry in glossary/: a word of the trade',
  module: 'Frontmatter of an entry in modules/: a part that systems are composed from',
};

/** The part of JSON Schema that this room reads. */
export interface JsonSchema {
  readonly type?: string;
  readonly description?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly propertyNames?: JsonSchema;
  readonly additionalProperties?: JsonSchema | boolean;
  readonly items?: JsonSchema;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly anyOf?: readonly JsonSchema[];
  readonly oneOf?: readonly JsonSchema[];
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, JsonSchema>>;
}

const made = new Map<Kind, JsonSchema>();

/** What an author may write in an entry of this kind, as JSON Schema 2020-12. */
export function jsonSchemaOf(kind: Kind): JsonSchema {
  const known = made.get(kind);
  if (known) return known;
  const { schema, title } = KINDS[kind];
  const { $schema, ...rest } = z.toJSONSchema(schema, { target: 'draft-2020-12', io: 'input' });
  const json = { $schema, title, description: DESCRIPTIONS[kind], ...rest } as JsonSchema;
  made.set(kind, json);
  return json;
}

/** The same for a firm that adds features of its own: they stand among those to choose from. */
export function withFeatures(schema: JsonSchema, own: readonly string[]): JsonSchema {
  if (own.length === 0) return schema;
  const ours = JSON.stringify(FEATURES);
  return JSON.parse(JSON.stringify(schema), (key, value) =>
    key === 'enum' && JSON.stringify(value) === ours ? [...FEATURES, ...own] : value,
  ) as JsonSchema;
}

/** Every entry with its kind, in order of kind. */
export function entriesByKind(
  entries: Entries,
): readonly (readonly [kind: Kind, about: (typeof KINDS)[Kind], entry: Entry<unknown>])[] {
  const groups: Readonly<Record<Kind, ReadonlyMap<string, Entry<unknown>>>> = {
    system: entries.systems,
    device: entries.devices,
    symptom: entries.symptoms,
    procedure: entries.procedures,
    standard: entries.standards,
    term: entries.glossary,
    module: entries.modules,
  };
  return (Object.keys(KINDS) as Kind[]).flatMap((kind) =>
    [...groups[kind].values()].map((entry) => [kind, KINDS[kind], entry] as const),
  );
}
