import { FieldFile } from './file.ts';
import { issueText } from './issue-text.ts';
import { FIELD_VERSION, MOST_FIELD_BYTES } from './limits.ts';

/** What came from the field, or why it is not taken and what would be. */
export type ReadField = { readonly file: FieldFile } | Refusal;

/** Why something is not taken. */
export interface Refusal {
  readonly problem: string;
  readonly allowed: string;
}

/** Lists and objects inside one another: a file of ours has three. */
const MOST_DEPTH = 6;
/** Values in all: a visit of two thousand acts has few more. */
const MOST_VALUES = 10_000;
/** Names that JavaScript itself gives a meaning. */
const PROTOTYPE_NAMES: readonly string[] = ['__proto__', 'constructor', 'prototype'];

const A_FILE = 'a file that “This page is wrong” or a finished job made here';
const NEWEST = `versions up to ${FIELD_VERSION}`;

/** Messages of one saved conversation that are read. */
const MOST_MESSAGES = 1000;

/**
 * Reads bytes from the field, of a file or of a saved conversation with several in it: one result
 * for each. Nothing of them is run, followed or trusted.
 */
export function readFieldBytes(bytes: Uint8Array): readonly [ReadField, ...ReadField[]] {
  if (bytes.length > MOST_FIELD_BYTES) return [tooLarge(bytes.length)];
  if (bytes.length === 0) return [{ problem: 'the file is empty', allowed: A_FILE }];
  let text: string;
  try {
    // A mark of byte order at the front is left out by the decoder.
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return [{ problem: 'the file is not UTF-8 text', allowed: `${A_FILE}, saved as UTF-8` }];
  }
  const [first, ...more] = linesIn(text);
  if (first === undefined || more.length === 0) return [readFieldText(text)];
  const read = more.slice(0, MOST_MESSAGES - 1).map(readLine);
  const left = more.length - read.length;
  const cut = {
    problem: `${left} more messages stand in it`,
    allowed: `the first ${MOST_MESSAGES}`,
  };
  return [readLine(first), ...read, ...(left > 0 ? [cut] : [])];
}

/** Said of a file by its size alone. */
export const tooLarge = (bytes: number): Refusal => ({
  problem: `the file has ${(bytes / 1024 / 1024).toFixed(1)} MB`,
  allowed: `at most ${MOST_FIELD_BYTES / 1024 / 1024} MB`,
});

/** Reads text from the field: a file, or a message with the file’s one line in it. */
export function readFieldText(text: string): ReadField {
  const whole = text.trim();
  const line = linesIn(whole).at(-1) ?? (whole.startsWith('{') ? whole : undefined);
  if (line === undefined)
    return { problem: 'there is no report and no visit in it', allowed: A_FILE };
  return readLine(line);
}

function readLine(line: string): ReadField {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return { problem: 'it is not whole JSON: it may be cut short', allowed: A_FILE };
  }
  const shape = shapeProblem(value);
  if (shape) return shape;
  const { proveline, version } = value as { proveline?: unknown; version?: unknown };
  if (proveline !== 'field')
    return {
      problem: proveline === 'job' ? 'it is a whole job, with its customer' : 'it is no such file',
      allowed:
        proveline === 'job' ? 'what the job’s own “Hand over to the office” makes of it' : A_FILE,
    };
  if (typeof version === 'number' && Number.isInteger(version) && version > FIELD_VERSION)
    return {
      problem: `it is of version ${version}, made by a newer Proveline than this`,
      allowed: `${NEWEST}; update Proveline, then gather again`,
    };
  if (version !== FIELD_VERSION)
    return { problem: 'its version is none that ever was', allowed: NEWEST };
  const read = FieldFile.safeParse(value);
  if (read.success) return { file: read.data };
  return { problem: issueText(read.error), allowed: A_FILE };
}

/** Lines of messages that are files of ours, without who sent them and when. */
const linesIn = (text: string): string[] =>
  text.split(/\r?\n/).flatMap((line) => {
    const at = line.indexOf('{"proveline"');
    if (at < 0) return [];
    const end = line.lastIndexOf('}');
    return [line.slice(at, end > at ? end + 1 : undefined).trim()];
  });

/** What is wrong with the bare shape of a value: too deep, too much, names of the language. */
function shapeProblem(value: unknown): Refusal | null {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return { problem: 'it is no object', allowed: A_FILE };
  const left: [part: object, depth: number][] = [[value, 1]];
  let values = 0;
  for (let next = left.pop(); next; next = left.pop()) {
    const [part, depth] = next;
    if (depth > MOST_DEPTH)
      return { problem: 'it is nested too deep', allowed: `${MOST_DEPTH} levels` };
    for (const name of Object.getOwnPropertyNames(part)) {
      if (PROTOTYPE_NAMES.includes(name))
        return { problem: `it has a key “${name}”`, allowed: 'the keys that are made here' };
      if (++values > MOST_VALUES)
        return { problem: 'it holds too much', allowed: `${MOST_VALUES} values` };
      const inner = (part as Record<string, unknown>)[name];
      if (typeof inner === 'object' && inner !== null) left.push([inner, depth + 1]);
    }
  }
  return null;
}
