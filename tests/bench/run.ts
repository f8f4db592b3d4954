/**
 * `npm run bench [-- section ...]`: how long things take beside a yardstick, both in one run.
 * Nothing is asserted: times are the machine's, and a busy one doubles them; ratios stay.
 */
import { cpus } from 'node:os';
import { readOptions, runCommand, WrongUse } from '../../src/cli/options.ts';

/** Every section: what it is about, and its table. Each is loaded only when it is run. */
const SECTIONS: Readonly<
  Record<string, { readonly about: string; readonly table: () => Promise<string> }>
> = {
  engine: {
    about: 'the solver against ngspice on the same networks',
    table: async () => (await import('./engine.ts')).engineTable(),
  },
  sequences: {
    about: 'signatures against ngspice, and sequences solved',
    table: async () => (await import('./sequences.ts')).sequenceTable(),
  },
  build: {
    about: 'builds, cold and after edits, against a plain build of the same pages',
    table: async () => (await import('./build.ts')).buildTable(),
  },
  offline: {
    about: 'saving the site for offline use against saving it file by file',
    table: async () => (await import('./offline.ts')).offlineTable(),
  },
  pages: {
    about: 'pages of the built site against the same words in a plain page',
    table: async () => (await import('./pages.ts')).pagesTable(),
  },
  search: {
    about: 'first result against the full-text index by itself',
    table: async () => (await import('./search.ts')).searchTable(),
  },
  job: {
    about: 'a job’s answers on a slow phone',
    table: async () => (await import('./job.ts')).jobTable(),
  },
};

const USAGE = `npm run bench [-- section ...]
${Object.entries(SECTIONS)
  .map(([name, { about }]) => `  ${name.padEnd(10)} ${about}`)
  .join('\n')}
  without a section: all of them`;

await runCommand(async () => {
  const { words } = readOptions(process.argv.slice(2), {}, USAGE);
  const unknown = words.find((word) => !Object.hasOwn(SECTIONS, word));
  if (unknown !== undefined) throw new WrongUse(`There is no section ${unknown}\n${USAGE}`);
  let failed = 0;
  for (const [name, { about, table }] of Object.entries(SECTIONS)) {
    if (words.length > 0 && !words.includes(name)) continue;
    console.log(`── ${name}: ${about}\n`);
    const began = performance.now();
    try {
      console.log(await table());
    } catch (error) {
      failed++;
      const [why] = String(error instanceof Error ? error.message : error).split('\n');
      console.log(`Not measured: ${why}\n`);
      console.log('The site in dist/ may be missing, or older than the sources: npm run build\n');
    }
    console.log(`${((performance.now() - began) / 1000).toFixed(0)} s\n`);
  }
  console.log(
    `Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model.trim() ?? 'unknown processor'}`,
  );
  return failed > 0 ? 1 : 0;
});
