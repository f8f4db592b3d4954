import {
  type Entries,
  jsonSchemaOf,
  type Kind,
  type Problem,
  withFeatures,
} from '../entries/index.ts';
import type { JsonSchema } from '../entries/kinds.ts';
import { type FirmFolder, located } from '../firm/index.ts';
import type { DeviceFacts, Wrong } from '../form/messages.ts';

/** What every device offers to an entry that holds it. */
export const devicesIn = (entries: Entries): DeviceFacts[] =>
  [...entries.devices.values()].map(({ id, data }) => ({
    id,
    title: data.title,
    terminals: Object.keys(data.terminals),
    conditions: Object.entries(data.conditions).map(([name, { title }]) => ({ name, title })),
    outcomes: Object.entries(data.outcomes).map(([name, { title }]) => ({ name, title })),
  }));

/** What an entry may say, with the features of the firm's own. */
export function schemaOf(
  kind: Kind,
  values: Readonly<Record<string, unknown>>,
  firm: FirmFolder | undefined,
): JsonSchema {
  const schema = withFeatures(jsonSchemaOf(kind), Object.keys(firm?.settings.features ?? {}));
  // What extends another need not repeat what that one says.
  return { ...schema, required: 'extends' in values ? [] : (schema.required ?? []) };
}

/** Problems as the form and the questions at a terminal say them. */
export const said = (problems: readonly Problem[]): Wrong[] =>
  problems.map(located).map(({ path, message, found, allowed, suggestion, mend, position }) => ({
    path,
    message,
    details: [
      found === undefined ? [] : `found ${found}`,
      allowed === undefined ? [] : `allowed ${allowed}`,
      suggestion === undefined ? [] : `did you mean ${suggestion}?`,
      mend ?? [],
    ].flat(),
    line: position.line,
  }));
