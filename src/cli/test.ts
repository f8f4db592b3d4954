import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readOptions, runCommand, WrongUse } from './options.ts';

const USAGE = `npm test, npm run test:site, npm run proofs [-- part of a file's name ...]
  npm test           lint, types, content, unit tests, build, one walk in a browser: minutes
  npm run test:site  the build, and every test of the built site
  npm run proofs     everything of every system, fresh seeds; SEED=n draws as a run before`;

/** One command of a tier, and what came of it. */
interface Step {
  readonly name: string;
  /** An npm script, or a project of the test runner, which is counted. */
  readonly run: { readonly script: string } | { readonly project: string };
  /** Names of the steps without which it makes no sense. */
  readonly after?: readonly string[];
}

interface Outcome {
  readonly name: string;
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
  readonly seconds: number;
  readonly said: string;
}

const BUILD: Step = { name: 'build', run: { script: 'build' } };

/** Steps of each tier in their order; those of one list run side by side. */
const TIERS: Readonly<Record<string, readonly (readonly Step[])[]>> = {
  quick: [
    [
      { name: 'lint', run: { script: 'lint' } },
      { name: 'types', run: { script: 'types' } },
      { name: 'content', run: { script: 'check' } },
    ],
    [{ name: 'unit tests', run: { project: 'unit' } }],
    [BUILD],
    [{ name: 'walk', run: { project: 'walk' }, after: ['build'] }],
  ],
  site: [[BUILD], [{ name: 'site tests', run: { project: 'site' }, after: ['build'] }]],
  proofs: [[{ name: 'proofs', run: { project: 'proofs' } }]],
};

/** The site that a tier built, for the tests of it. */
const SITE = { SITE_FOLDER: process.env.SITE_FOLDER ?? 'dist' };

/** Runs a command; what it says is shown at once, or kept to be shown if it fails. */
function call(words: readonly string[], keep: boolean): Promise<{ status: number; said: string }> {
  return new Promise((resolve, reject) => {
    const child = spawn('npm', words, {
      stdio: keep ? ['ignore', 'pipe', 'pipe'] : ['ignore', 'inherit', 'inherit'],
      env: { ...process.env, ...(words.includes('vitest') ? SITE : {}) },
    });
    const parts: Buffer[] = [];
    for (const stream of [child.stdout, child.stderr])
      stream?.on('data', (part: Buffer) => parts.push(part));
    child.on('error', reject);
    child.on('close', (code) =>
      resolve({ status: code ?? 1, said: Buffer.concat(parts).toString() }),
    );
  });
}

async function take(step: Step, keep: boolean, filters: readonly string[]): Promise<Outcome> {
  const { name, run } = step;
  const began = performance.now();
  const seconds = () => Math.round((performance.now() - began) / 1000);
  if ('script' in run) {
    const { status, said } = await call(['run', '--silent', run.script], keep);
    return { name, passed: 0, failed: status === 0 ? 0 : 1, skipped: 0, seconds: seconds(), said };
  }
  const folder = mkdtempSync(join(tmpdir(), 'tests-'));
  try {
    const file = join(folder, 'results.json');
    const own = ['run', '--project', run.project, '--passWithNoTests', ...filters];
    const reports = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
    const { status, said } = await call(['exec', 'vitest', '--', ...own, ...reports], keep);
    const counts = countsIn(file);
    // A run that ended badly without a failed test, as one that broke off, is a failure too.
    const failed = Math.max(counts.failed, status === 0 ? 0 : 1);
    return { name, ...counts, failed, seconds: seconds(), said };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Tests that the runner counted; none where it left no report. */
function countsIn(file: string): Pick<Outcome, 'passed' | 'failed' | 'skipped'> {
  try {
    const report = JSON.parse(readFileSync(file, 'utf8')) as Record<string, number>;
    const { numPassedTests = 0, numFailedTests = 0, numPendingTests = 0 } = report;
    return { passed: numPassedTests, failed: numFailedTests, skipped: numPendingTests };
  } catch {
    return { passed: 0, failed: 0, skipped: 0 };
  }
}

/** A line of the closing table. */
function line({ name, passed, failed, skipped, seconds }: Outcome): string {
  const counted = passed + failed + skipped > 1;
  const counts = [
    `${passed} passed`,
    `${failed} failed`,
    ...(skipped ? [`${skipped} skipped`] : []),
  ];
  const result = counted ? counts.join(', ') : failed ? 'failed' : 'passed';
  return `  ${name.padEnd(12)}${result.padEnd(34)}${String(seconds).padStart(5)} s`;
}

await runCommand(async () => {
  const { words } = readOptions(process.argv.slice(2), {}, USAGE);
  const [tier = 'quick', ...filters] = words;
  const steps = TIERS[tier];
  if (!steps)
    throw new WrongUse(`No tier ${tier}; there are ${Object.keys(TIERS).join(', ')}\n${USAGE}`);
  const began = performance.now();
  const done: Outcome[] = [];
  for (const together of steps) {
    const able = together.filter(
      ({ after = [] }) => !done.some(({ name, failed }) => failed > 0 && after.includes(name)),
    );
    console.log(`\n── ${together.map(({ name }) => name).join(', ')}`);
    if (able.length < together.length) console.log('left out: it needs what failed before');
    const keep = able.length > 1;
    const outcomes = await Promise.all(able.map((step) => take(step, keep, filters)));
    for (const outcome of outcomes) {
      if (keep) console.log(line(outcome));
      if (outcome.failed > 0 && keep) console.log(`\n${outcome.said}`);
    }
    done.push(...outcomes);
  }
  const sum = (count: 'passed' | 'failed' | 'skipped') =>
    done.reduce((total, outcome) => total + outcome[count], 0);
  const total = Math.round((performance.now() - began) / 1000);
  console.log(`\n${done.map(line).join('\n')}`);
  console.log(
    `${tier} tests: ${sum('passed')} passed, ${sum('failed')} failed, ${sum('skipped')} skipped in ${total} s`,
  );
  return sum('failed') > 0 ? 1 : 0;
});
