import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import { type HashOf, readHashes } from '../../folder/index.ts';
import { currentPath, type FormerNames } from '../../former/index.ts';
import { contentType } from '../content-types.ts';
import { isPage, type Manifest, versionOf } from '../manifest.ts';
import { encodePack, type PackedFile } from '../pack.ts';
import { type Effects, machine } from './effects.ts';
import { readSearchFiles } from './search-files.ts';
import { type PackPlan, planPacks } from './select.ts';

/** What readers are told of a version. */
export interface Built {
  readonly version: string;
  /** YYYY-MM-DD. */
  readonly date: string;
  /** The newest release of the firm, where it has made any. */
  readonly release?: string | undefined;
}

/** Packs of so many bytes and more: readers choose which systems to keep. */
export const CHOICE_FROM = 25_000_000;

/** How a site is kept. */
export interface PackOptions {
  /** What its entries were called before. */
  readonly former?: FormerNames;
  /** Bytes of packs from which on readers choose which systems to keep. */
  readonly choiceFrom?: number | undefined;
  /** Tells the hash of a file of the site; reads it unless given. */
  readonly hashOf?: HashOf;
}

type Pack = Manifest['packs'][number];

/**
 * Writes what a phone needs to keep the site: `offline/packs/<kind>-<hash>.pack`,
 * `offline/manifest.json` and the worker `sw.js`, into the folder of a built site. The same
 * site gives the same bytes.
 * @throws Error when the folder holds no page
 */
export async function writeOfflinePacks(
  dist: string,
  built: Built,
  { former = {}, choiceFrom = CHOICE_FROM, hashOf }: PackOptions = {},
  effects: Effects = machine,
): Promise<Manifest> {
  const written = hashOf ?? readHashes(effects);
  // A program of its own, which works beside what follows.
  const worker = effects.bundleWorker();
  await effects.remove(join(dist, 'offline'));
  // At former addresses the worker itself leads on.
  const listed = (await effects.list(dist)).filter(
    ({ path }) => currentPath(former, path) === path,
  );
  const search = await readSearchFiles(
    listed.map(({ path }) => path),
    (path) => effects.read(join(dist, path)),
  );
  const files = [...listed.filter(({ path }) => !search.replaced.has(path)), ...search.files];
  const made = new Map(search.files.map(({ path, body }) => [path, body]));
  const source: Source = {
    read: async (path) => made.get(path) ?? (await effects.read(join(dist, path))),
    hash: async (path) => {
      const body = made.get(path);
      return body ? hash(body) : written(join(dist, path));
    },
  };
  const packs = await Promise.all(
    planPacks(files).map((plan) => writePack(plan, dist, source, effects)),
  );
  const manifest = {
    ...describe(built, packs, choiceFrom),
    ...(Object.keys(former).length > 0 ? { former } : {}),
  };
  if (manifest.pages === 0) throw new Error(`${dist} holds no page: build the site first`);
  await effects.write(
    join(dist, 'offline/manifest.json'),
    `${JSON.stringify(manifest, null, 1)}\n`,
  );
  effects.kept.prune();
  const version = JSON.stringify(versionOf(manifest));
  await effects.write(join(dist, 'sw.js'), `const SITE_VERSION=${version};${await worker}`);
  return manifest;
}

/** The files of a site as they are packed. */
interface Source {
  readonly read: (path: string) => Promise<PackedFile['body']>;
  readonly hash: (path: string) => Promise<string>;
}

async function writePack(
  { kind, system, paths }: PackPlan,
  dist: string,
  source: Source,
  effects: Effects,
): Promise<Pack> {
  const download = await compress(paths, source, effects.kept);
  const sha256 = hash(download).slice(0, 32);
  const url = `offline/packs/${kind}-${sha256.slice(0, 16)}.pack`;
  await effects.write(join(dist, url), download);
  const pages = paths.filter(isPage).length;
  const bytes = download.length;
  return { url, bytes, sha256, pages, ...(system ? { system } : {}), files: paths };
}

function describe(
  { version, date, release }: Built,
  packs: readonly Pack[],
  choiceFrom: number,
): Manifest {
  const files = packs.flatMap((pack) => pack.files);
  const bytes = packs.reduce((sum, pack) => sum + pack.bytes, 0);
  return {
    id: hash(JSON.stringify([version, packs.map(({ sha256 }) => sha256)])).slice(0, 16),
    version,
    date,
    ...(release === undefined ? {} : { release }),
    pages: files.filter(isPage).length,
    files: files.length,
    bytes,
    choosable: bytes >= choiceFrom,
    packs,
  };
}

const zip = promisify(gzip);

async function compress(
  paths: readonly string[],
  { read, hash: hashOf }: Source,
  kept: Effects['kept'],
): Promise<Uint8Array> {
  const lines = paths.map(async (path) => [path, contentType(path), await hashOf(path)]);
  const name = hash(JSON.stringify(await Promise.all(lines)));
  const before = kept.read(name);
  if (before) return before;
  const files = paths.map(async (path) => ({
    path,
    type: contentType(path),
    body: await read(path),
  }));
  const bytes = await zip(encodePack(await Promise.all(files)), { level: 9 });
  // Byte 9 of a gzip header names the machine that made it (RFC 1952); 255 is "unknown".
  bytes[9] = 255;
  kept.write(name, bytes);
  return bytes;
}

const hash = (data: Uint8Array | string) => createHash('sha256').update(data).digest('hex');
