import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { firmFolder } from '../firm/index.ts';
import { folders, homeFolder } from '../folder/index.ts';
import { getReference } from '../reference/index.ts';
import {
  type Release,
  readReleases,
  releaseNamed,
  releasePath,
  unpackInto,
} from '../releases/index.ts';
import { dataHashes } from './release-data.ts';

/** Differing files that are named; the rest are counted. */
const MOST_NAMED = 8;

/**
 * Builds a release of the firm again, on its day, from the files that its own file holds, and says
 * whether its open data came out byte for byte as it was.
 * @param build builds a site from the folders that the surroundings name
 * @returns exit code: 1 where the data is not as it was
 */
export async function rebuildRelease(
  name: string,
  out: string | undefined,
  build: (out?: string) => Promise<{ readonly out: string }>,
): Promise<number> {
  const firm = firmFolder();
  if (firm === undefined) throw new Error('Say --firm FOLDER: releases stand in a firm’s folder');
  const releases = await readReleases(firm);
  const release = releaseNamed(releases, name);
  const key = createHash('sha256').update(`${firm} ${name}`).digest('hex').slice(0, 12);
  const folder = join(homeFolder(), '.astro', `release-${key}`);
  await folders.remove(folder);
  const unpacked = await unpackInto(folder, release.archive);
  for (const { name } of releases.slice(0, releases.indexOf(release) + 1))
    await folders.write(
      join(unpacked.firm, releasePath(name)),
      await folders.read(join(firm, releasePath(name))),
    );
  Object.assign(process.env, {
    PROVELINE_CONTENT: unpacked.content,
    PROVELINE_FIRM: unpacked.firm,
    PROVELINE_PUBLISH: '1',
    // Noon of its day, in any time zone's calendar the same.
    SOURCE_DATE_EPOCH: String(Date.parse(`${release.date}T12:00:00Z`) / 1000),
  });
  try {
    const site = await build(out);
    return await compared(release, site.out);
  } finally {
    await folders.remove(folder);
  }
}

async function compared(release: Release, out: string): Promise<number> {
  const files = await folders.list(join(out, 'data'));
  const now = dataHashes(
    await Promise.all(
      files.map(
        async ({ path }) => [`data/${path}`, await folders.read(join(out, 'data', path))] as const,
      ),
    ),
  );
  // Copies under names that entries had before are no data of their own.
  const paths = Object.keys(release.data);
  const differing = paths.filter((path) => release.data[path] !== now[path]);
  if (differing.length === 0) {
    console.log(
      `Release ${release.name}: ${paths.length} files of open data, byte for byte as released`,
    );
    return 0;
  }
  const { code } = await getReference();
  const why =
    code === release.code
      ? 'made by the same code of Proveline'
      : 'Proveline itself is another than it was made by; with that one it comes out the same';
  const more = differing.length - MOST_NAMED;
  console.error(
    `Release ${release.name} is built, and its open data is not as it was released (${why}):\n  ${differing.slice(0, MOST_NAMED).join('\n  ')}${more > 0 ? `\n  and ${more} more` : ''}`,
  );
  return 1;
}
