import { type Comparison, compareBuilds, SystemFacts } from '../changes/index.ts';
import { systemData } from '../data/index.ts';
import type { Reference } from '../reference/index.ts';
import { readBuild } from './since.ts';

/** What changed from an earlier build to this one. */
export interface ReleaseNote {
  readonly since: { readonly version: string; readonly date: string };
  readonly comparison: Comparison;
}

/** Folder of the build that this one is compared with: PROVELINE_SINCE; none when not set. */
const earlierFolder = (): string | undefined => process.env.PROVELINE_SINCE || undefined;

/**
 * The note of this build, or undefined where no earlier one was given.
 * @throws Error when the earlier build cannot be read; see {@link readBuild}.
 */
export async function releaseNote(
  { systems }: Pick<Reference, 'systems'>,
  folder = earlierFolder(),
): Promise<ReleaseNote | undefined> {
  if (!folder) return undefined;
  const { version, date, systems: before } = await readBuild(folder);
  const after = new Map(
    [...systems].map(([id, system]) => [id, SystemFacts.parse(systemData(system))]),
  );
  return { since: { version, date }, comparison: compareBuilds(before, after) };
}
