import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { contentType } from '../content-types.ts';
import { isPage, type Manifest, versionOf } from '../manifest.ts';
import { encodePack, type PackedFile } from '../pack.ts';
import { type Effects, machine } from './effects.ts';
import { planPacks } from './select.ts';

/** What readers are told of a version. */
export interface Built {
  readonly version: string;
  /** YYYY-MM-DD. */
  readonly date: string;
}

type Pack = Manifest['packs'][number];

/**
 * Writes what a phone needs to keep the site: `offline/<kind>-<hash>.pack`,
 * `offline/manifest.json` and the worker `sw.js`, into the folder of a built site. The same
 * site gives the same bytes.
 * @throws Error when the folder holds no page
 */
export async function writeOfflinePacks(
  dist: string,
  { version, date }: Built,
  effects: Effects = machine,
): Promise<Manifest> {
  await effects.remove(join(dist, 'offline'));
  const packs: Pack[] = [];
  for (const { kind, paths } of planPacks(await effects.list(dist))) {
    const download = compress(await readAll(dist, paths, effects));
    const sha256 = hash(download);
    const url = `offline/${kind}-${sha256.slice(0, 16)}.pack`;
    await effects.write(join(dist, url), download);
    packs.push({ url, bytes: download.length, sha256, files: paths });
  }
  const manifest = describe({ version, date }, packs);
  if (manifest.pages === 0) throw new Error(`${dist} holds no page: build the site first`);
  await effects.write(
    join(dist, 'offline/manifest.json'),
    `${JSON.stringify(manifest, null, 1)}\n`,
  );
  await effects.write(join(dist, 'sw.js'), await effects.bundleWorker(versionOf(manifest)));
  return manifest;
}

function describe(built: Built, packs: readonly Pack[]): Manifest {
  const files = packs.flatMap((pack) => pack.files);
  return {
    id: hash(JSON.stringify([built, packs.map(({ sha256 }) => sha256)])).slice(0, 16),
    ...built,
    pages: files.filter(isPage).length,
    files: files.length,
    bytes: packs.reduce((sum, { bytes }) => sum + bytes, 0),
    packs,
  };
}

const readAll = (dist: string, paths: readonly string[], effects: Effects) =>
  Promise.all(
    paths.map(
      async (path): Promise<PackedFile> => ({
        path,
        type: contentType(path),
        body: await effects.read(join(dist, path)),
      }),
    ),
  );

function compress(files: readonly PackedFile[]): Uint8Array {
  const bytes = gzipSync(encodePack(files), { level: 9 });
  // Byte 9 of a gzip header names the machine that made it (RFC 1952); 255 is "unknown".
  bytes[9] = 255;
  return bytes;
}

const hash = (data: Uint8Array | string) => createHash('sha256').update(data).digest('hex');
