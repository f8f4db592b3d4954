import { createHash } from 'node:crypto';

/** Files of a build's data that say what changed: they grow with every release. */
const OF_CHANGES =
  /^data\/(?:changes|releases)\.json$|^data\/schemas\/(?:changes|releases)\.schema\.json$/;

/** SHA-256, its first 32 digits, of each file of a build's open data, by its path in the site. */
export function dataHashes(
  files: Iterable<readonly [path: string, body: string | Uint8Array]>,
): Record<string, string> {
  return Object.fromEntries(
    [...files]
      .filter(([path]) => path.startsWith('data/') && !OF_CHANGES.test(path))
      .map(
        ([path, body]) =>
          [path, createHash('sha256').update(body).digest('hex').slice(0, 32)] as const,
      )
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );
}
