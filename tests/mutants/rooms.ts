/** What of the sources is mutated together, and the quick tests that must notice. */
export interface Room {
  /** Source files by their path from the project's root, `*` for any name. */
  readonly files: readonly string[];
  /** Test files, the quick ones that matter: every mutant runs through those that reach it. */
  readonly tests: readonly string[];
  /** Least share of the mutants that the tests must kill. */
  readonly floor: number;
}

export const ROOMS = {
  'solver-key': {
    files: ['src/{folder/kept,reference/lock,reference/page-key,reference/solver}.ts'],
    tests: [
      'tests/folder/kept.test.ts',
      'tests/reference/lock.test.ts',
      'tests/reference/page-key.test.ts',
      'tests/reference/solver.test.ts',
    ],
    floor: 0.87,
  },
  job: {
    files: ['src/job/{job,kept,ladder,store}.ts'],
    tests: [
      'tests/job/desk.test.ts',
      'tests/job/job-file.test.ts',
      'tests/job/job.test.ts',
      'tests/job/kept.test.ts',
      'tests/job/ladder.property.test.ts',
    ],
    floor: 0.98,
  },
  offline: {
    files: ['src/offline/{install,status,store,turnover}.ts'],
    tests: [
      'tests/offline/install.test.ts',
      'tests/offline/mending.test.ts',
      'tests/offline/serving.test.ts',
      'tests/offline/status.test.ts',
    ],
    floor: 0.91,
  },
  circuit: {
    files: ['src/circuit/*.ts'],
    tests: [
      'tests/circuit/accuracy.property.test.ts',
      'tests/circuit/alter.test.ts',
      'tests/circuit/build.test.ts',
      'tests/circuit/change.test.ts',
      'tests/circuit/fuses.test.ts',
      'tests/circuit/guards.test.ts',
      'tests/circuit/laws.property.test.ts',
      'tests/circuit/netlist.test.ts',
      'tests/circuit/parts.test.ts',
      'tests/circuit/rules.test.ts',
      'tests/circuit/settle.test.ts',
      'tests/published/supply.test.ts',
      'tests/published/induced.test.ts',
    ],
    floor: 0.89,
  },
  standards: {
    files: ['src/standards/*.ts', 'src/standards/checks/*.ts'],
    tests: [
      'tests/standards/exceptions.test.ts',
      'tests/standards/made.test.ts',
      'tests/standards/trials.property.test.ts',
    ],
    floor: 0.93,
  },
  search: {
    files: ['src/diagnosis/search/*.ts'],
    tests: [
      'tests/diagnosis/search/effort.test.ts',
      'tests/diagnosis/search/packing-bound.property.test.ts',
      'tests/diagnosis/search/published.test.ts',
      'tests/diagnosis/search/reading-bound.test.ts',
      'tests/diagnosis/search/search.property.test.ts',
      'tests/diagnosis/search/setup-search.property.test.ts',
    ],
    floor: 0.93,
  },
  inference: {
    files: ['src/diagnosis/inference/{found,posterior,verdict}.ts'],
    tests: ['tests/diagnosis/inference/found.test.ts', 'tests/diagnosis/inference/verdict.test.ts'],
    floor: 0.94,
  },
} as const satisfies Record<string, Room>;

export type RoomName = keyof typeof ROOMS;
