import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { typedPath } from '../folder/index.ts';
import { isPage } from '../offline/manifest.ts';

/** A built site as what is printed from it needs it. */
export interface BuiltSite {
  /** Whose it is: the firm's name, or the reference's own. */
  readonly name: string;
  readonly version: string;
  /** YYYY-MM-DD. */
  readonly date: string;
  /** The newest release of the firm that it holds, where there is one. */
  readonly release?: string;
  /** Path of the host it is built for, as in /reference/. */
  readonly base: string;
  /** Addresses of its pages from the base, as `systems/combi-two-wire/`. */
  readonly pages: readonly string[];
}

const Index = z.object({
  reference: z.object({ name: z.string(), version: z.string(), date: z.iso.date() }),
});
const Version = z.object({ release: z.string().optional() });
const Packs = z.object({ packs: z.array(z.object({ files: z.array(z.string()) })) });

/**
 * Reads what a built site says of itself.
 * @param firm the option by which a build knows whose it is, as it is typed
 * @throws Error that names what is missing or wrong, and what to do.
 */
export async function readSite(folder: string, firm = ''): Promise<BuiltSite> {
  const home = await readFile(join(folder, 'index.html'), 'utf8').catch(() => undefined);
  const base = home === undefined ? undefined : baseOf(home);
  if (base === undefined)
    throw new Error(
      `${folder}/ is no built site: ${home === undefined ? 'it holds no index.html' : 'its index.html is not one that a build writes'}. Build one: npm run build --${firm} --out ${typedPath(folder)}`,
    );
  const { reference } = await json(Index, folder, 'data/index.json');
  const { packs } = await json(Packs, folder, 'offline/manifest.json');
  const { release } = await json(Version, folder, 'version.json');
  const pages = packs
    .flatMap(({ files }) => files)
    .filter(isPage)
    .map((path) => path.replace(/index\.html$/, ''));
  return { ...reference, ...(release === undefined ? {} : { release }), base, pages };
}

/** The path of the host that a built page says it is for. */
export const baseOf = (html: string): string | undefined =>
  /<body[^>]*\sdata-base="([^"]*)"/.exec(html)?.[1];

async function json<T>(schema: z.ZodType<T>, folder: string, path: string): Promise<T> {
  const again = `Build ${folder}/ again, or name another with --from`;
  const text = await readFile(join(folder, path), 'utf8').catch(() => undefined);
  if (text === undefined)
    throw new Error(`${folder}/ is no whole site: it holds no ${path}. ${again}`);
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new Error(`${folder}/${path} is damaged: it is not JSON. ${again}`);
  }
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const [issue] = result.error.issues;
  throw new Error(
    `${folder}/${path} is not what a build writes: ${issue?.path.join('.') || 'the whole'} is missing or of another kind. ${again}`,
  );
}
