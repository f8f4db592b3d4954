import { createHash } from 'node:crypto';
import { join, relative, resolve, sep } from 'node:path';
import { z } from 'zod';
import { type FolderEffects, folders, type HashOf, readHashes } from '../folder/index.ts';

/** Folders and files of the project that a site is made from, beside its entries. */
const CODE = ['src', 'schemas', 'public'];
const SETTINGS = ['astro.config.ts', 'tsconfig.json', 'package.json', 'package-lock.json'];
/** Parts of a folder that are nobody's source, as a firm's folder has them. */
export const NO_SOURCE: ReadonlySet<string> = new Set(['.git', 'node_modules', '.proveline']);
/** What `npm run pack` adds to a built site. */
const ADDED = /^(pack\/|\.git\/)/;

/** A build that ended well: what it was made from, and what it wrote. */
const Record = z.strictObject({
  inputs: z.string(),
  /** SHA-256 by path in the output. */
  files: z.record(z.string(), z.string()),
});

/** What a whole site is made from. */
export interface SiteInputs {
  /** The project's folder. */
  readonly root: string;
  /** Folders of entries: the content, and the firm's where there is one. */
  readonly entries: readonly string[];
  /** Folder that is written to, which is no source wherever it lies. */
  readonly out: string;
  /** Whatever else a page depends on: the day, the address it is built for, the tools. */
  readonly settings: unknown;
}

/** A hash of everything that a site is made from: one byte changed anywhere changes it. */
export async function inputsHash(
  { root, entries, out, settings }: SiteInputs,
  { list, read }: Pick<FolderEffects, 'list' | 'read'> = folders,
): Promise<string> {
  const hash = createHash('sha256').update(JSON.stringify(settings));
  const add = async (name: string, file: string) => {
    const bytes = await read(file);
    hash.update(JSON.stringify([name, bytes.length])).update(bytes);
  };
  for (const [i, folder] of [...CODE.map((one) => join(root, one)), ...entries].entries()) {
    const paths = (await list(folder, NO_SOURCE)).map(({ path }) => path).sort();
    for (const path of paths) {
      const file = join(folder, path);
      if (isWithin(out, file)) continue;
      await add(`${i}/${path}`, file);
    }
  }
  // A copy of the project may go without one; that is another input than having it.
  for (const name of SETTINGS)
    await add(name, join(root, name)).catch(() => hash.update(JSON.stringify([name, null])));
  return hash.digest('hex');
}

/**
 * Whether a built site stands just as a build from these very inputs left it: every file there,
 * none changed, none added.
 * @param record file in which that build was recorded; one that cannot be read counts as none
 */
export async function standsAsBuilt(
  record: string,
  inputs: string,
  out: string,
  effects: Pick<FolderEffects, 'list' | 'read'> = folders,
): Promise<boolean> {
  try {
    const text = new TextDecoder().decode(await effects.read(record));
    const built = Record.parse(JSON.parse(text));
    if (built.inputs !== inputs) return false;
    const now = await filesIn(out, effects, readHashes(effects));
    const names = Object.keys(now);
    return (
      names.length === Object.keys(built.files).length &&
      names.every((name) => now[name] === built.files[name])
    );
  } catch {
    // No record, half a one or no output: the site is built.
    return false;
  }
}

/**
 * Records what a build that ended well was made from and what it wrote.
 * @param hashOf the hash of a file as it was written
 */
export async function recordBuild(
  record: string,
  inputs: string,
  out: string,
  hashOf: HashOf,
  effects: FolderEffects = folders,
): Promise<void> {
  const files = await filesIn(out, effects, hashOf);
  await effects.write(record, JSON.stringify({ inputs, files } satisfies z.infer<typeof Record>));
}

async function filesIn(
  out: string,
  { list }: Pick<FolderEffects, 'list'>,
  hashOf: HashOf,
): Promise<{ [path: string]: string }> {
  const files: { [path: string]: string } = {};
  for (const { path } of await list(out))
    if (!ADDED.test(path)) files[path] = await hashOf(join(out, path));
  return files;
}

const isWithin = (folder: string, file: string): boolean => {
  const way = relative(resolve(folder), resolve(file));
  return way !== '..' && !way.startsWith(`..${sep}`) && resolve(way) !== way;
};
