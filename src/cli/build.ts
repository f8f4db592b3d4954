import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { build as buildPages } from 'astro';
import { jobFiles } from '../bench/index.ts';
import { dataFiles } from '../data/index.ts';
import { writeOfflinePacks } from '../offline/build/index.ts';
import { headersFile } from '../publish/headers.ts';
import { getReference } from '../reference/index.ts';
import { buildSearchIndex } from '../search/build/index.ts';

/** Folder the site is built into. */
const OUT = 'dist';

/** Builds the site: entries, pages, data, search index, offline packs, in this order. */
async function build(): Promise<void> {
  const reference = await getReference();
  await buildPages({ logLevel: 'warn' });
  await writeAll(new Map([['_headers', headersFile(process.env.BASE_PATH)]]), OUT);
  await writeAll(dataFiles(reference), join(OUT, 'data'));
  for (const system of reference.systems.values())
    await writeAll(jobFiles(system), join(OUT, 'job'));
  await buildSearchIndex(OUT, reference.entries);
  const saved = await writeOfflinePacks(OUT, reference.built);
  console.log(
    `${reference.systems.size} systems, version ${reference.built.version}, ${saved.files} files for offline use (${(saved.bytes / 1e6).toFixed(1)} MB) in ${OUT}/`,
  );
}

async function writeAll(files: ReadonlyMap<string, string>, folder: string): Promise<void> {
  for (const [path, text] of files) {
    const file = join(folder, path);
    await mkdir(dirname(file), { recursive: true });
    await writeFile(file, text);
  }
}

try {
  await build();
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
