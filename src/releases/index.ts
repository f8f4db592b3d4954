/** A firm's releases: kept in its folder, read again, compared with, rebuilt. The door to this room. */
export { archiveOf, unpackInto } from './archive.ts';
export { currentReleases, RELEASES_FILE, ReleasesData, releasesData } from './current.ts';
export { ReleaseProblem, readReleases, releaseNamed } from './read.ts';
export {
  NAME,
  NAME_SAYS,
  Release,
  releasePath,
  releaseText,
  Told,
  toldOf,
} from './release.ts';
export { factsIn, snapshotOf } from './snapshot.ts';
