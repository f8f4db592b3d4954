import { compareBuilds, comparisonText } from '../changes/index.ts';
import { readBuild } from '../publish/index.ts';
import { readOptions, runCommand, WrongUse } from './options.ts';

const USAGE = `npm run changes -- earlier [later]
  earlier, later  folders of built sites, or their data folders (later: dist)`;

/** Says what changed electrically from one built site to another. */
await runCommand(async () => {
  const { words } = readOptions(process.argv.slice(2), {}, USAGE);
  const [before, after = 'dist'] = words;
  if (!before || words.length > 2) throw new WrongUse(USAGE);
  const [old, now] = [await readBuild(before), await readBuild(after)];
  console.log(`From ${old.version} (${old.date}) to ${now.version} (${now.date})`);
  console.log(comparisonText(compareBuilds(old.systems, now.systems)));
  return 0;
});
