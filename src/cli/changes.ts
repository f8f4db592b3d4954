import { existsSync } from 'node:fs';
import { changesText, compareReferences, type ReferenceFacts } from '../changes/index.ts';
import { firmFolder } from '../firm/index.ts';
import { readBuild } from '../publish/index.ts';
import { factsIn, type Release, readReleases, releaseNamed } from '../releases/index.ts';
import { readOptions, runCommand, takeFirm, text, WrongUse } from './options.ts';

const USAGE = `npm run changes -- [--firm folder] earlier [later]
  earlier, later  folders of built sites, or their data folders (later: dist); with --firm
                  also names of the firm's releases, as in 2026.11 2026.12`;

/** Says what changed from one built site or release to another, gravest first. */
await runCommand(async () => {
  const asked = readOptions(process.argv.slice(2), { firm: 'value' }, USAGE);
  const [before, after = 'dist'] = asked.words;
  if (!before || asked.words.length > 2) throw new WrongUse(USAGE);
  takeFirm(text(asked, 'firm'));
  const firm = firmFolder();
  const releases = firm === undefined ? [] : await readReleases(firm);
  const [old, now] = [await stateOf(before, releases), await stateOf(after, releases)];
  console.log(`From ${old.called} to ${now.called}`);
  if (!old.facts.entries || !now.facts.entries)
    console.log('One of them does not say what entries say: circuits alone are compared');
  console.log(changesText(compareReferences(old.facts, now.facts)));
  return 0;
});

interface State {
  readonly called: string;
  readonly facts: ReferenceFacts;
}

/** A release of that name where there is one, else the build in that folder. */
async function stateOf(name: string, releases: readonly Release[]): Promise<State> {
  const release = releases.find((one) => one.name === name);
  if (release) return { called: `${name} (${release.date})`, facts: factsIn(release.snapshot) };
  if (firmFolder() !== undefined && !existsSync(name)) releaseNamed(releases, name);
  const build = await readBuild(name);
  return { called: `${build.version} (${build.date})`, facts: build };
}
