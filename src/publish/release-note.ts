import { z } from 'zod';
import { ChangeLine, Comparison, compareBuilds, compareReferences } from '../changes/index.ts';
import { factsOf, type Told } from './facts.ts';
import { type EarlierBuild, readBuild } from './since.ts';

const Build = z.strictObject({ version: z.string(), date: z.iso.date() });

/**
 * What changed from an earlier build to a later one, as published in `data/changes.json`. A
 * build that says all that the one before it said keeps that one's note, so that a rebuild
 * takes nothing from readers.
 */
export const ReleaseNote = z.strictObject({
  $schema: z.literal('schemas/changes.schema.json'),
  since: Build.meta({ description: 'The build compared with' }),
  to: Build.meta({ description: 'The build that first had what is listed here' }),
  changes: z
    .array(ChangeLine)
    .default([])
    .meta({ description: 'Everything that a reader acts on, gravest first, each said once' }),
  comparison: Comparison.meta({ description: 'The same systems compared as circuits alone' }),
});
export type ReleaseNote = z.infer<typeof ReleaseNote>;

/** Path of a build's note in its data folder. */
export const NOTE_FILE = 'changes.json';

/** A build with the note it was published with, where it had one. */
export interface Earlier extends EarlierBuild {
  readonly note?: ReleaseNote | undefined;
}

/**
 * The build command and the pages' bundle load this module once each, in one process: the
 * earlier build stands on the process.
 */
const shelf: { [key: symbol]: Earlier | undefined } = globalThis as never;
const PLACE = Symbol.for('proveline earlier build');

/**
 * Reads the build that this one is compared with. Done before anything is written, so that it
 * may be the very folder that is built anew.
 * @throws Error when it cannot be read; see {@link readBuild}.
 */
export async function takeEarlier(folder: string): Promise<void> {
  shelf[PLACE] = await readEarlier(folder);
}

/** Whether this build is compared with an earlier one. */
export const hasEarlier = (): boolean => shelf[PLACE] !== undefined;

/**
 * Reads an earlier build with its note.
 * @throws Error when either cannot be read; see {@link readBuild}.
 */
export async function readEarlier(
  ...[folder, read]: Parameters<typeof readBuild>
): Promise<Earlier> {
  const build = await readBuild(folder, read);
  return { ...build, note: await build.further(NOTE_FILE, ReleaseNote) };
}

/** The note of this build, or undefined where no earlier one was taken. */
export function releaseNote(
  reference: Told,
  earlier: Omit<Earlier, 'further'> | undefined = shelf[PLACE],
): ReleaseNote | undefined {
  if (!earlier) return undefined;
  const { version, date, note } = earlier;
  const after = factsOf(reference);
  const changes = compareReferences(earlier, after);
  if (changes.length === 0 && note) return note;
  return {
    $schema: 'schemas/changes.schema.json',
    since: { version, date },
    to: { ...reference.built },
    changes,
    comparison: compareBuilds(earlier.systems, after.systems),
  };
}
