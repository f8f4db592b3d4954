import { z } from 'zod';
import { firmFolder } from '../firm/index.ts';
import { readReleases } from './read.ts';
import { Told, toldOf } from './release.ts';

/** Path of the releases in a build's data folder. */
export const RELEASES_FILE = 'releases.json';

/** What every release changed, as published in `data/releases.json`. */
export const ReleasesData = z.strictObject({
  $schema: z.literal('schemas/releases.schema.json'),
  releases: z.array(Told).meta({ description: 'The newest first' }),
});

/**
 * What readers are told of the releases of the firm that this build is for, the newest first.
 * @throws ReleaseProblem where a release's file is not in order.
 */
export async function currentReleases(): Promise<Told[]> {
  const firm = firmFolder();
  return firm === undefined ? [] : (await readReleases(firm)).map(toldOf).reverse();
}

/** The open form of releases. */
export const releasesData = (releases: readonly Told[]): z.infer<typeof ReleasesData> => ({
  $schema: 'schemas/releases.schema.json',
  releases: [...releases],
});
