import { type Comparison, compareBuilds, SystemFacts } from '../changes/index.ts';
import { circuitData } from '../data/index.ts';
import type { Reference } from '../reference/index.ts';
import { type EarlierBuild, readBuild } from './since.ts';

/** What changed from an earlier build to this one. */
export interface ReleaseNote {
  readonly since: { readonly version: string; readonly date: string };
  readonly comparison: Comparison;
}

/**
 * The build command and the pages' bundle load this module once each, in one process: the
 * earlier build stands on the process.
 */
const shelf: { [key: symbol]: EarlierBuild | undefined } = globalThis as never;
const PLACE = Symbol.for('proveline earlier build');

/**
 * Reads the build that this one is compared with. Done before anything is written, so that it
 * may be the very folder that is built anew.
 * @throws Error when it cannot be read; see {@link readBuild}.
 */
export async function takeEarlier(folder: string): Promise<void> {
  shelf[PLACE] = await readBuild(folder);
}

/** The note of this build, or undefined where no earlier one was taken. */
export function releaseNote(
  { systems }: Pick<Reference, 'systems'>,
  earlier = shelf[PLACE],
): ReleaseNote | undefined {
  if (!earlier) return undefined;
  const { version, date, systems: before } = earlier;
  const after = new Map(
    [...systems].map(([id, system]) => [id, SystemFacts.parse(circuitData(system))]),
  );
  return { since: { version, date }, comparison: compareBuilds(before, after) };
}
