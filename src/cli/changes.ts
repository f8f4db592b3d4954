import { compareBuilds, comparisonText } from '../changes/index.ts';
import { readBuild } from '../publish/since.ts';

/** Says what changed electrically from one built site to another. */
async function run(): Promise<void> {
  const [before, after = 'dist', ...more] = process.argv.slice(2);
  if (!before || more.length > 0)
    throw new Error(
      'Give the folder of the earlier build, and that of the later one if it is not dist: npm run changes -- ../published dist',
    );
  const [old, now] = [await readBuild(before), await readBuild(after)];
  console.log(`From ${old.version} (${old.date}) to ${now.version} (${now.date})`);
  console.log(comparisonText(compareBuilds(old.systems, now.systems)));
}

run().catch((failure: unknown) => {
  console.error(failure instanceof Error ? failure.message : String(failure));
  process.exitCode = 1;
});
