import { spawn } from 'node:child_process';
import { Writable } from 'node:stream';
import { startVitest } from 'vitest/node';
import { readOptions, runCommand, WrongUse } from './options.ts';
import { OUT } from './output.ts';
import { type Step as Counter, startProgress } from './progress.ts';

const USAGE = `npm test, npm run test:site, npm run proofs [-- part of a file's name ...]
  npm test           build, lint, types, content, unit tests, one walk in a browser
  npm run test:site  the build, and every test of the built site
  npm run proofs     everything of every system, fresh seeds; SEED=n draws as a run before`;

/** One command of a tier: an npm script, or a project of the test runner, which is counted. */
interface Task {
  readonly name: string;
  readonly run: { readonly script: string } | { readonly project: string };
}

/** What a stage's tasks came to. */
interface Outcome {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
  /** Files and the seconds that each took. */
  readonly took: readonly (readonly [file: string, seconds: number])[];
  /** All that was said, to be shown where something failed. */
  readonly said: string;
}

/** Tasks that run side by side. */
interface Stage {
  readonly title: string;
  readonly tasks: readonly Task[];
  /** Whether it makes no sense without the site built before. */
  readonly needsSite?: boolean;
}

const BUILD: Stage = { title: 'Build', tasks: [{ name: 'build', run: { script: 'build' } }] };
const testsOf = (title: string, project: string, needsSite = false): Stage => ({
  title,
  tasks: [{ name: project, run: { project } }],
  needsSite,
});

/**
 * Stages of each tier in their order. The site is built first: what it works out of the systems is
 * kept, and need not be worked out again by every process of the tests.
 */
const TIERS: Readonly<Record<string, readonly Stage[]>> = {
  quick: [
    BUILD,
    {
      title: 'Lint, types, content, unit tests',
      tasks: [
        ...['lint', 'types', 'check'].map((script) => ({ name: script, run: { script } })),
        ...testsOf('Unit tests', 'unit').tasks,
      ],
    },
    testsOf('A walk through the site', 'walk', true),
  ],
  site: [BUILD, testsOf('Tests of the site', 'site', true)],
  proofs: [testsOf('Proofs', 'proofs')],
};

/** The surroundings of a reader, before the test runner sets its own. */
const SURROUNDINGS = { ...process.env };

function runScript({ name, run }: Task & { run: { script: string } }): Promise<Outcome> {
  return new Promise((resolve, reject) => {
    const child = spawn('npm', ['run', '--silent', run.script], {
      stdio: ['ignore', 'pipe', 'pipe'],
      env: SURROUNDINGS,
    });
    const parts: Buffer[] = [];
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (part: Buffer) => parts.push(part));
    child.on('error', reject);
    child.on('close', (code) =>
      resolve({
        passed: 0,
        failed: code === 0 ? 0 : 1,
        skipped: 0,
        took: [],
        said: code === 0 ? '' : `npm run ${name} failed:\n${Buffer.concat(parts)}`,
      }),
    );
  });
}

/** Seconds from which a file of tests is named at the end of its stage, and how many are at most. */
const LONG = 30;
const MOST_LONG = 12;

/** Runs a project of the test runner in this process, its files counted as they end. */
async function runProject(
  project: string,
  filters: readonly string[],
  step: Counter,
): Promise<Outcome> {
  const parts: string[] = [];
  const kept = new Writable({
    write(part, _encoding, done) {
      parts.push(String(part));
      done();
    },
  });
  const found = { passed: 0, failed: 0, skipped: 0 };
  const took: [string, number][] = [];
  let [done, files] = [0, 0];
  const counting = {
    onTestRunStart: (specifications: readonly unknown[]) => {
      files = specifications.length;
    },
    onTestModuleEnd: (module: EndedFile) => {
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state !== 'pending') found[state] += 1;
      }
      took.push([module.relativeModuleId, module.diagnostic().duration / 1000]);
      step(++done, files);
    },
  };
  const vitest = await startVitest(
    [...filters],
    { project: [project], watch: false, passWithNoTests: true, reporters: ['default', counting] },
    {},
    { stdout: kept, stderr: kept },
  );
  await vitest.close();
  // A file that cannot be read, or an error that no test caught, fails without a failed test.
  const isWell =
    vitest.state.getUnhandledErrors().length === 0 &&
    vitest.state.getTestModules().every((module) => module.ok());
  const failed = Math.max(found.failed, isWell ? 0 : 1);
  return { ...found, failed, took, said: failed > 0 ? parts.join('') : '' };
}

/** The part of a file of tests that ended that is counted. */
interface EndedFile {
  readonly relativeModuleId: string;
  readonly children: { allTests(): Iterable<Ended> };
  diagnostic(): { readonly duration: number };
}

/** The part of a test that ended that is counted. */
interface Ended {
  result(): { readonly state: 'passed' | 'failed' | 'skipped' | 'pending' };
}

const take = ({ name, run }: Task, filters: readonly string[], step: Counter): Promise<Outcome> =>
  'script' in run ? runScript({ name, run }) : runProject(run.project, filters, step);

await runCommand(async () => {
  const { words } = readOptions(process.argv.slice(2), {}, USAGE);
  const [tier = 'quick', ...filters] = words;
  const stages = TIERS[tier];
  if (!stages)
    throw new WrongUse(`No tier ${tier}; there are ${Object.keys(TIERS).join(', ')}\n${USAGE}`);
  // The tests of the site take the one that this run has built.
  if (stages.includes(BUILD)) process.env.SITE_FOLDER ??= OUT;
  const progress = startProgress({ stages: stages.length });
  let isBuilt = true;
  const sum = { passed: 0, failed: 0, skipped: 0 };
  for (const stage of stages) {
    const { title, tasks, needsSite } = stage;
    if (needsSite && !isBuilt) {
      progress.say(`${title}: left out, since there is no site`);
      continue;
    }
    const outcomes = await progress.stage(title, (step) =>
      Promise.all(tasks.map((task) => take(task, filters, step))),
    );
    if (stage === BUILD) isBuilt = outcomes.every(({ failed }) => failed === 0);
    for (const { passed, failed, skipped, took, said } of outcomes) {
      const long = took.filter(([, seconds]) => seconds >= LONG).toSorted((a, b) => b[1] - a[1]);
      for (const [file, seconds] of long.slice(0, MOST_LONG))
        progress.say(`  ${Math.round(seconds)} s ${file}`);
      sum.passed += passed;
      sum.failed += failed;
      sum.skipped += skipped;
      if (failed > 0) console.log(`\n${said}`);
    }
  }
  progress.end();
  console.log(`${tier} tests: ${sum.passed} passed, ${sum.failed} failed, ${sum.skipped} skipped`);
  return sum.failed > 0 ? 1 : 0;
});
