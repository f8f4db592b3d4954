import type { FormerNames } from '../../src/former/index.ts';
import { type Effects, writeOfflinePacks } from '../../src/offline/build/index.ts';
import type { InstallEffects } from '../../src/offline/install.ts';
import { type Manifest, type Version, versionOf } from '../../src/offline/manifest.ts';

/** Where the sites of these tests stand. */
export const SCOPE = 'https://reference.example/base/';

/** A site in memory: its files after the packs were written, and its network. */
export interface MemorySite {
  readonly files: ReadonlyMap<string, Uint8Array<ArrayBuffer>>;
  readonly manifest: Manifest;
  readonly version: Version;
  /** Addresses asked for so far. */
  readonly asked: string[];
  /** Answers for an address of the site, 404 where it holds nothing. */
  readonly fetch: (address: string) => Promise<Response>;
  /** The same network, on a device with room without end. */
  readonly effects: InstallEffects;
}

/** The file system as the packs' writer uses it, held in a map of paths under `dist/`. */
export function memoryEffects(files: Map<string, Uint8Array<ArrayBuffer>>): Effects {
  const inside = (file: string) => file.slice('dist/'.length);
  return {
    list: async () => [...files].map(([path, body]) => ({ path, bytes: body.length })),
    read: async (file) => files.get(inside(file))!,
    async write(file, body) {
      files.set(inside(file), typeof body === 'string' ? bytes(body) : new Uint8Array(body));
    },
    async remove(folder) {
      for (const path of files.keys())
        if (path.startsWith(`${inside(folder)}/`)) files.delete(path);
    },
    kept: { read: () => undefined, write() {}, prune() {} },
    bundleWorker: async () => '// the worker',
  };
}

/** Writes the packs of a site given as texts by path. */
export async function memorySite(
  texts: Readonly<Record<string, string>>,
  {
    date = '2026-11-25',
    version = '1',
    choiceFrom = Number.POSITIVE_INFINITY,
    former = {} as FormerNames,
  } = {},
): Promise<MemorySite> {
  const files = new Map(Object.entries(texts).map(([path, text]) => [path, bytes(text)]));
  const built = { version, date };
  const manifest = await writeOfflinePacks(
    'dist',
    built,
    { choiceFrom, former },
    memoryEffects(files),
  );
  const asked: string[] = [];
  const fetch = async (address: string) => {
    asked.push(address);
    const body = files.get(address.slice(SCOPE.length));
    return body ? new Response(body) : new Response('nothing here', { status: 404 });
  };
  return {
    files,
    manifest,
    version: versionOf(manifest),
    asked,
    fetch,
    effects: { fetch, free: async () => undefined },
  };
}

/** A page whose text no compression makes small, so that a site of a few has several packs. */
export function bulkyPage(title: string, seed: number, length = 700_000): string {
  let state = seed;
  const next = () => {
    // Lehmer's generator with the minimal standard multiplier (Park and Miller, CACM 1988).
    state = (state * 48271) % 2147483647;
    return state.toString(36);
  };
  let text = `<h1>${title}</h1>`;
  while (text.length < length) text += next();
  return text;
}

const bytes = (text: string) => new TextEncoder().encode(text);
