import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, readdir, readFile, rename, rm, rmdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Worker } from 'node:worker_threads';
import { build as buildPages } from 'astro';
import { calendarDay } from '../entries/index.ts';
import { contentFolder, firmFolder } from '../firm/index.ts';
import { folders, homeFolder, keptFolder, keptIn, readHashes } from '../folder/index.ts';
import { writeOfflinePacks } from '../offline/build/index.ts';
import type { Manifest } from '../offline/manifest.ts';
import { formerFiles, hasEarlier, takeEarlier } from '../publish/index.ts';
import { getReference, holdReference, LOCK_FILE, type Reference } from '../reference/index.ts';
import { currentReleases } from '../releases/index.ts';
import { buildSearchIndex } from '../search/build/index.ts';
import { asItStands } from './as-it-stands.ts';
import { basePath, siteAddress } from './base-path.ts';
import { giveWay } from './give-way.ts';
import { inputsHash, recordBuild, standsAsBuilt } from './kept-site.ts';
import { keptWorkers } from './kept-workers.ts';
import { oneAtATime } from './one-at-a-time.ts';
import { readOptions, runCommand, takeFirm, text, WrongUse } from './options.ts';
import { OUT, outputFolder } from './output.ts';
import { startProgress } from './progress.ts';
import { rebuildRelease } from './rebuild.ts';
import { siteData } from './site-data.ts';
import { solveSequences } from './solve.ts';
import { readyWorker, workOutResults } from './work-out.ts';

const USAGE = `npm run build [-- --firm folder] [--out folder] [--since folder] [--prove] [--publish] [--release name]
  --firm folder   a firm's folder, laid over the reference
  --out folder    where the site is written (default: dist)
  --since folder  an earlier build, to tell readers what changed; may be the one built over
  --prove         searches on, for minutes, where a sequence is not proven best while building, and
                  keeps what it finds in sequences.lock.json of the firm, or of the content
  --publish       for readers: refuses a firm's entries that nobody has reviewed as they stand, or
                  leaves them out where firm.yaml says so
  --release name  builds a release of the firm again as it was, from its file in the firm's folder`;

/** What earlier builds worked out. */
const KEPT = keptFolder();
/** Surroundings that a site is built for. */
const SITE_SETTINGS = ['BASE_PATH', 'SITE_URL', 'TZ', 'PROVELINE_PUBLISH', 'PROVELINE_RELEASING'];
const MANIFEST = join('offline', 'manifest.json');
const FIRST = ': about half a minute the first time, less once what it works out is kept';

/** A site as built: where it lies and the path of the host that it is for. */
export interface Site {
  readonly out: string;
  readonly base: string;
}

/**
 * Builds the site: entries, sequences, pages, data, search index, offline packs, in this order, all of
 * it in one folder.
 * @param prove whether to search on where a sequence is not proven best, and lock what is found
 * @throws Error with every problem of the entries, or with what stopped it
 */
export const buildSite = (asked?: string, prove = false): Promise<Site> =>
  oneAtATime(join(homeFolder(), '.astro', 'building'), console.error, async () => {
    const ready = readyWorker();
    try {
      return await buildAlone(ready, asked, prove);
    } finally {
      await ready.terminate();
    }
  });

async function buildAlone(ready: Worker, asked?: string, prove = false): Promise<Site> {
  const firm = firmFolder();
  const out = outputFolder(asked, [homeFolder(), contentFolder(), ...(firm ? [firm] : [])]);
  // What a build says of an earlier one depends on that one too, and proving is asked for.
  const plain = !hasEarlier() && !prove;
  const progress = startProgress({
    stages: plain || prove ? 8 : 7,
    headline: `Building ${asked ?? OUT}/${existsSync(join(KEPT, 'results')) ? '' : FIRST}`,
  });
  const record = join(`${cacheFolder(firm)}-built`, `${nameFor(out)}.json`);
  const inputs = await inputsHash({
    root: homeFolder(),
    entries: [contentFolder(), ...(firm ? [firm] : [])],
    out,
    settings: [SITE_SETTINGS.map((name) => process.env[name]), calendarDay(), process.version],
  });
  // Read before anything is made: one that is damaged stops the build at once.
  const release = (await currentReleases())[0]?.name;
  const reference = await progress.stage('Entries', getReference);
  if (plain && (await progress.stage('What stands', () => standsAsBuilt(record, inputs, out)))) {
    progress.say(`Nothing has changed since ${asked ?? OUT}/ was built: it stands as it is`);
    progress.end();
    tell(reference, await savedIn(out), asked);
    return { out, base: basePath(reference.firm?.settings) };
  }
  await rm(record, { force: true });
  const removed = await setAside(out, join(cacheFolder(firm), 'set-aside'));
  const lockFile = join(firm ?? contentFolder(), LOCK_FILE);
  const base = basePath(reference.firm?.settings);
  const site = siteAddress(reference.firm?.settings);
  const memory = { kept: keptIn(join(KEPT, 'solved')), keyOf: reference.partKey };
  // Bundling needs no figure, and leaves a processor idle at times: sequences are worked out in
  // these, and pages, which are made last, wait for them.
  const bundling = Promise.withResolvers<void>();
  const results = workOutResults(reference, progress, ready);
  const workedOut = results
    .faults()
    .then(() => bundling.promise)
    .then(() => solveSequences(reference, progress, { lockFile, prove, memory }))
    .then(() => workOutShown(reference))
    .then(() => results.rest());
  holdReference(workedOut);
  // Bundling leaves time for these too.
  const data = workedOut.then(() => siteData(reference, base, join(cacheFolder(firm), 'data')));
  data.catch(() => {});
  const pages = buildPages({
    root: homeFolder(),
    logLevel: 'warn',
    outDir: out,
    base,
    ...(site === undefined ? {} : { site }),
    cacheDir: cacheFolder(firm),
    vite: { plugins: [asItStands(), keptWorkers()] },
    integrations: [
      { name: 'bundling-begins', hooks: { 'astro:build:setup': () => bundling.resolve() } },
    ],
  });
  pages.catch(bundling.reject);
  bundling.promise.catch(() => {});
  await workedOut;
  await progress.stage('Pages', () => withoutLeavings(() => pages));
  // The indexer is a program of its own, and works beside the making of data.
  await progress.stage('Search index and open data', () =>
    Promise.all([
      buildSearchIndex(out, reference.entries, undefined, reference.firm?.settings.features),
      data.then((files) => writeAll(files, out)),
    ]),
  );
  await writeFormer(reference, out, base);
  const hashOf = readHashes();
  const saved = await progress.stage('Offline packs', () =>
    writeOfflinePacks(out, { ...reference.built, release }, { former: reference.former, hashOf }),
  );
  if (plain) await recordBuild(record, inputs, out, hashOf);
  await removed.done;
  progress.end();
  tell(reference, saved, asked);
  return { out, base };
}

/**
 * Empties the output by a move, which is at once; what an earlier build left there is removed
 * while pages are made. Where it cannot be moved the page maker removes it in its time.
 */
async function setAside(out: string, aside: string): Promise<{ readonly done: Promise<void> }> {
  const remove = () => rm(aside, { recursive: true, force: true });
  try {
    // What a build that was stopped left.
    await remove();
    await mkdir(aside, { recursive: true });
    const names = existsSync(out) ? await readdir(out) : [];
    await Promise.all(
      names
        .filter((name) => name !== '.git')
        .map((name) => rename(join(out, name), join(aside, name))),
    );
  } catch {}
  return { done: remove().catch(() => {}) };
}

/** Works out, while pages are bundled, what other pages show of the systems that changed. */
async function workOutShown({ systems, entries, shown }: Reference): Promise<void> {
  for (const id of systems.keys())
    for (const _ of shown.keep(id, entries.symptoms.keys())) await giveWay();
  shown.prune();
}

/**
 * Makes pages, and takes away the folder that the page maker makes where the command runs, and
 * leaves there empty, when the site lies elsewhere: nobody's folder is written into but for the site.
 */
async function withoutLeavings<T>(make: () => Promise<T>): Promise<T> {
  const left = resolve('.astro');
  const wasThere = existsSync(left);
  try {
    return await make();
  } finally {
    // One that holds anything stays.
    if (!wasThere) await rmdir(left).catch(() => {});
  }
}

/** Says what was built, in a line. */
function tell(
  { firm, systems, built, leftOut }: Reference,
  { files, bytes }: Pick<Manifest, 'files' | 'bytes'>,
  asked = OUT,
): void {
  console.log(
    `${leftOut.length > 0 ? `Left out as drafts: ${leftOut.join(', ')}\n` : ''}${firm ? `${firm.settings.name}: ` : ''}${systems.size} systems, version ${built.version}, ${files} files for offline use (${(bytes / 1e6).toFixed(1)} MB) in ${asked}/`,
  );
}

const savedIn = async (out: string): Promise<Manifest> =>
  JSON.parse(await readFile(join(out, MANIFEST), 'utf8'));

const nameFor = (path: string) => createHash('sha256').update(path).digest('hex').slice(0, 8);

/** Where the page maker keeps what it read: not shared by contents, whose entries share names. */
const cacheFolder = (firm = '') =>
  join(homeFolder(), '.astro', `kept-${nameFor(JSON.stringify([contentFolder(), firm]))}`);

/** Writes what answers at the addresses that entries had under former names. */
async function writeFormer({ former }: Reference, out: string, base: string): Promise<void> {
  const paths = (await folders.list(out)).map(({ path }) => path);
  await Promise.all(
    formerFiles(paths, former, base.replace(/\/*$/, '/')).map(async (file) =>
      folders.write(
        join(out, file.path),
        'page' in file ? file.page : await folders.read(join(out, file.copyOf)),
      ),
    ),
  );
}

async function writeAll(files: ReadonlyMap<string, string>, folder: string): Promise<void> {
  await Promise.all([...files].map(([path, body]) => folders.write(join(folder, path), body)));
}

if (import.meta.main)
  await runCommand(async () => {
    const asked = readOptions(
      process.argv.slice(2),
      {
        firm: 'value',
        out: 'value',
        since: 'value',
        prove: 'flag',
        publish: 'flag',
        release: 'value',
      },
      USAGE,
    );
    takeFirm(text(asked, 'firm'));
    const release = text(asked, 'release');
    if (release !== undefined) {
      if (text(asked, 'since') ?? asked.options.prove)
        throw new WrongUse(`--release builds what was released, and nothing else\n${USAGE}`);
      return rebuildRelease(release, text(asked, 'out'), buildSite);
    }
    if (asked.options.publish === true) process.env.PROVELINE_PUBLISH = '1';
    const since = text(asked, 'since');
    if (since !== undefined) await takeEarlier(since);
    await buildSite(text(asked, 'out'), asked.options.prove === true);
    return undefined;
  });
