import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { deserialize, serialize } from 'node:v8';
import { z } from 'zod';
import { dataFiles, systemDataFile } from '../data/index.ts';
import { keptIn } from '../folder/index.ts';
import { jobFiles } from '../job/index.ts';
import { headersFile } from '../publish/headers.ts';
import { NOTE_FILE, ReleaseNote, releaseNote } from '../publish/index.ts';
import type { ComputedSystem, Reference } from '../reference/index.ts';
import { currentReleases, RELEASES_FILE, ReleasesData, releasesData } from '../releases/index.ts';

/**
 * What a site holds beside its pages, by path: open data, what jobs need, and the headers that a
 * host must send. A system's own are kept from build to build under the name of its parts’ pages,
 * those of the last build alone: they are large, and another day gives every page another name.
 * @param folder where they are kept
 */
export async function siteData(
  reference: Reference,
  base: string,
  folder: string,
): Promise<Map<string, string>> {
  const kept = keptIn(folder);
  const names = new Set<string>();
  const files = new Map([['_headers', headersFile(base)]]);
  const add = (more: ReadonlyMap<string, string>, within = '') => {
    for (const [path, body] of more) files.set(join(within, path), body);
  };
  add(dataFiles(reference), 'data');
  add(noteFiles(reference), 'data');
  add(await releaseFiles(), 'data');
  for (const [id, system] of reference.systems) {
    const name = reference.partKey(id);
    names.add(name);
    const before = kept.read(name);
    const own = before ? (deserialize(before) as Map<string, string>) : systemFiles(system);
    if (!before) kept.write(name, serialize(own));
    add(own);
    // Pages are made meanwhile.
    await setImmediate();
  }
  kept.prune(names);
  return files;
}

const systemFiles = (system: ComputedSystem): Map<string, string> =>
  new Map([
    [`data/systems/${system.id}.json`, systemDataFile(system)],
    ...[...jobFiles(system)].map(([path, body]) => [`job/${path}`, body] as const),
  ]);

/** What changed since an earlier build, for readers and for the next build; none without one. */
function noteFiles(reference: Reference): Map<string, string> {
  const note = releaseNote(reference);
  if (!note) return new Map();
  return new Map([
    [NOTE_FILE, `${JSON.stringify(note)}\n`],
    [join(NOTE_FILE, '..', note.$schema), `${JSON.stringify(z.toJSONSchema(ReleaseNote))}\n`],
  ]);
}

/** What every release of the firm changed; none where it has made none. */
async function releaseFiles(): Promise<Map<string, string>> {
  const releases = await currentReleases();
  if (releases.length === 0) return new Map();
  const data = releasesData(releases);
  return new Map([
    [RELEASES_FILE, `${JSON.stringify(data)}\n`],
    [join(RELEASES_FILE, '..', data.$schema), `${JSON.stringify(z.toJSONSchema(ReleasesData))}\n`],
  ]);
}
