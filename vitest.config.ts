import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { PAGE_PATIENCE, TEST_PATIENCE } from './tests/support/patience.ts';

/** Seed that `npm test` draws with: a failure is met again. SEED in the environment changes it. */
const FIXED_SEED = 20_260_228;
const asked = process.env.SEED;
/** Seed of a run of the proofs: another each time, printed by every test that draws. */
const fresh = Date.now() % 2 ** 31;

/**
 * What a tier draws with: its seed, and how many times as many trials a property gets as its
 * test says.
 */
const fixed = { seed: Number(asked ?? FIXED_SEED), effort: 1 };
const proving = { seed: Number(asked ?? fresh), effort: 10 };

/** Files that take minutes, the longest first: begun last, one of them would run on alone. */
const LONG = [
  ...[
    'pages.test',
    'sweep',
    'every-fault-2',
    'lock.proof',
    'agreement',
    'package.proof',
    'long-way',
    'double-faults',
  ],
  ...['kept.test', 'kept-pages', 'offline.test', 'layout.property', 'every-fault', 'honest'],
  ...['weights.property', 'versions.test', 'by-hand', 'calls.test', 'build/sequences'],
  ...['sheet-sides', 'browser/firm', 'pairs.proof', 'browser/diagram', 'mutants.proof'],
  ...['job/engine', 'damage.property', 'firm/review', 'browser/job.test', 'axe.test', 'touch'],
  ...['random-edits', 'ngspice.property', 'sequences/problem', 'editor-schemas'],
];
const rank = ({ moduleId }: TestSpecification): number => {
  const at = LONG.findIndex((name) => moduleId.includes(name));
  return at === -1 ? LONG.length : at;
};
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return (await super.sort(files)).toSorted((a, b) => rank(a) - rank(b));
  }
}

export default defineConfig({
  test: {
    sequence: { sequencer: LongestFirst },
    // On two cores the runner would by itself work with one.
    maxWorkers: '100%',
    // Much is made and soon forgotten: with more room for what is young it is swept less often, and
    // by one thread, for every core has its own file to run.
    execArgv: ['--max-semi-space-size=128', '--single-threaded-gc'],
    // What is to become so is waited for as long as a page is, not for one second.
    expect: { poll: { timeout: PAGE_PATIENCE } },
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', 'tests/build/**', 'tests/walk/**'],
          // Files that a worker takes one after another share what they load and work out.
          isolate: false,
          provide: fixed,
          // Lint and types run beside them, so that a core is shared by two or three.
          testTimeout: 120_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'walk',
          include: ['tests/walk/**/*.test.ts'],
          globalSetup: ['tests/support/built-site.ts'],
          testTimeout: TEST_PATIENCE,
          hookTimeout: TEST_PATIENCE,
        },
      },
      {
        extends: true,
        test: {
          name: 'site',
          include: ['tests/build/**/*.test.ts', 'tests/browser/**/*.test.ts'],
          globalSetup: ['tests/support/built-site.ts'],
          provide: fixed,
          testTimeout: TEST_PATIENCE,
          hookTimeout: TEST_PATIENCE,
        },
      },
      {
        extends: true,
        test: {
          name: 'proofs',
          include: ['tests/**/*.proof.ts', 'tests/**/*.property.test.ts'],
          provide: proving,
          testTimeout: TEST_PATIENCE,
          hookTimeout: TEST_PATIENCE,
        },
      },
    ],
  },
});
