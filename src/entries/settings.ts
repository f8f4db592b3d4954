import { type ZodType, z } from 'zod';
import { readYaml } from './frontmatter.ts';
import type { JsonSchema } from './kinds.ts';
import { makeProblem } from './problem.ts';
import { readText } from './read-text.ts';
import { topOf } from './source.ts';
import type { Places, Problem } from './types.ts';
import { placesIn } from './yaml-tree.ts';
import { NO_MESSAGE, schemaProblems } from './zod-problems.ts';

/** A settings file as read: its values where they are in order, and where each stands. */
export interface Settings<T> {
  readonly data?: T;
  readonly places: Places;
  readonly problems: readonly Problem[];
}

/** Reads a YAML file of settings as entries are read: every fault a problem with its place. */
export function readSettings<T>(
  file: string,
  bytes: Uint8Array,
  schema: ZodType<T>,
  json: JsonSchema,
): Settings<T> {
  const { source, text, problems } = readText(file, bytes);
  if (text === undefined) return { places: placesIn(source, undefined, 0), problems };
  if (text.trim() === '') {
    const empty = makeProblem('file-empty', topOf(source), [], 'the file is empty');
    return { places: placesIn(source, undefined, 0), problems: [...problems, empty] };
  }
  const yaml = readYaml(source, text, 0);
  const found = [...problems, ...yaml.problems];
  if (!yaml.data) return { places: yaml.places, problems: found };
  const result = schema.safeParse(yaml.data, { reportInput: true, error: () => NO_MESSAGE });
  if (result.success) return { data: result.data, places: yaml.places, problems: found };
  const subject = { data: yaml.data, places: yaml.places, schema: json };
  return {
    places: yaml.places,
    problems: [...found, ...schemaProblems(result.error.issues, subject)],
  };
}

/** A schema of settings as JSON Schema 2020-12, for editors and for messages. */
export function jsonSchemaOfSettings(
  schema: ZodType,
  title: string,
  description: string,
): JsonSchema {
  const { $schema, ...rest } = z.toJSONSchema(schema, { target: 'draft-2020-12', io: 'input' });
  return { $schema, title, description, ...rest } as JsonSchema;
}
