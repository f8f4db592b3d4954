import { existsSync } from 'node:fs';
import { join, relative } from 'node:path';
import { type ChangeLine, changesText, compareReferences, lineWords } from '../changes/index.ts';
import { contentFolder, firmFolder } from '../firm/index.ts';
import { folders, homeFolder } from '../folder/index.ts';
import { factsOf } from '../publish/index.ts';
import { getReference, LOCK_FILE, type Reference } from '../reference/index.ts';
import {
  archiveOf,
  factsIn,
  NAME,
  NAME_SAYS,
  type Release,
  readReleases,
  releasePath,
  releaseText,
  snapshotOf,
} from '../releases/index.ts';
import { type Answers, answersFrom } from './ask.ts';
import { basePath } from './base-path.ts';
import { buildSite } from './build.ts';
import { readOptions, runCommand, takeFirm, text, WrongUse } from './options.ts';
import { startProgress } from './progress.ts';
import { dataHashes } from './release-data.ts';
import { siteData } from './site-data.ts';
import { solveSequences } from './solve.ts';
import { workOutResults } from './work-out.ts';

const USAGE = `npm run release -- --firm folder --name name [--by name] [--reason text] [--out folder]
  --firm folder  the firm's folder; the release is written into its releases/
  --name name    what it is called, as in 2026.12; no name is used twice
  --by name      who releases it; asked for if absent
  --reason text  why what is dangerous was changed; asked for, change by change, if absent
  --out folder   builds the site of the release there, too`;

/** Publishes what the firm's folder holds now as a release, for readers to be told of. */
await runCommand(async () => {
  const options = {
    firm: 'value',
    name: 'value',
    by: 'value',
    reason: 'value',
    out: 'value',
  } as const;
  const asked = readOptions(process.argv.slice(2), options, USAGE);
  takeFirm(text(asked, 'firm'));
  const [firm, name] = [firmFolder(), text(asked, 'name')];
  if (asked.words.length > 0)
    throw new WrongUse(`“${asked.words[0]}” belongs to no option\n${USAGE}`);
  if (firm === undefined)
    throw new WrongUse(`Say --firm FOLDER: a release is of a firm’s folder\n${USAGE}`);
  if (name === undefined)
    throw new WrongUse(`Say --name: what it is called, as in 2026.12\n${USAGE}`);
  if (!NAME.test(name))
    throw new Error(`“${name}” cannot be a release’s name.\n  allowed  ${NAME_SAYS}`);
  for (const option of ['by', 'reason'] as const)
    if (text(asked, option)?.trim() === '')
      throw new Error(`--${option} is empty: say it in words, for whoever reads the release`);
  const releases = await readReleases(firm);
  const taken = releases.find((one) => one.name.toLowerCase() === name.toLowerCase());
  if (taken)
    throw new Error(
      `There is a release ${taken.name} already, of ${taken.date} by ${taken.by}: a release is never written over. Give this one another name`,
    );
  // Readers get it: drafts are refused or left out as firm.yaml says, and it bears the new name.
  Object.assign(process.env, { PROVELINE_PUBLISH: '1', PROVELINE_RELEASING: name });
  const { reference, data } = await workOut(firm);
  const last = releases.at(-1);
  const now = factsOf(reference);
  const changes = last ? compareReferences(factsIn(last.snapshot), now) : [];
  if (last && changes.length === 0)
    throw new Error(
      `Nothing that a reader acts on has changed since ${last.name}: there is nothing to release`,
    );
  console.log(
    last
      ? `From ${last.name} (${last.date}) to ${name}:\n${changesText(changes)}`
      : `${name} is the first release: the next one is compared with it`,
  );
  const answers = answersFrom(asked);
  const by = (await answers.of('by', 'Who releases it')).trim();
  const reasons = await reasonsFor(changes, answers);
  answers.close();
  const release: Omit<Release, 'seal'> = {
    format: 1,
    name,
    date: reference.built.date,
    by,
    version: reference.built.version,
    after: last?.name ?? null,
    changes: changes.map((line) => ({ ...line, reason: reasons.get(line) ?? null })),
    code: reference.code,
    data,
    snapshot: snapshotOf(now),
    archive: await archiveOf({ content: contentFolder(), firm }),
  };
  const file = join(firm, releasePath(name));
  if (existsSync(file)) throw new Error(`${file} is there already, and is not written over`);
  await folders.write(file, releaseText(release));
  console.log(
    `Released ${name}, version ${release.version}, in ${relative('.', file)}: keep it with the folder`,
  );
  delete process.env.PROVELINE_RELEASING;
  if (text(asked, 'out') !== undefined) await buildSite(text(asked, 'out'));
  return undefined;
});

/** Everything that the release's open data says, and the hashes of its files. */
async function workOut(
  firm: string,
): Promise<{ readonly reference: Reference; readonly data: Record<string, string> }> {
  const progress = startProgress({ stages: 5, headline: 'Working the release out' });
  const reference = await progress.stage('Entries', getReference);
  const results = workOutResults(reference, progress);
  await results.faults();
  await solveSequences(reference, progress, { lockFile: join(firm, LOCK_FILE), prove: false });
  await results.rest();
  const files = await progress.stage('Open data', () =>
    siteData(
      reference,
      basePath(reference.firm?.settings),
      join(homeFolder(), '.astro/release-data'),
    ),
  );
  progress.end();
  return { reference, data: dataHashes(files) };
}

/** A reason for each dangerous change; one answered with nothing has the reason of the one before. */
async function reasonsFor(
  changes: readonly ChangeLine[],
  answers: Answers,
): Promise<Map<ChangeLine, string>> {
  const reasons = new Map<ChangeLine, string>();
  let before: string | undefined;
  for (const line of changes.filter(({ rank }) => rank === 'danger')) {
    const question = `${lineWords(line)}\nWhy, for those who must know`;
    before = (await answers.of('reason', question, before)).trim();
    reasons.set(line, before);
  }
  return reasons;
}
