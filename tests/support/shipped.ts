import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type SearchProblem, solveSequence } from '../../src/diagnosis/search/index.ts';
import type { Start } from '../../src/diagnosis/sequences/index.ts';
import { loadEntries } from '../../src/entries/index.ts';
import { type ComputedSystem, computeSystem } from '../../src/reference/compute.ts';
import { LOCK_FILE, openLock } from '../../src/reference/lock.ts';
import { keptResults } from '../../src/reference/results/index.ts';
import { keepingSolver } from '../../src/reference/solver.ts';

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));

/** A mutation tester changes what code does and not what it says: nothing is kept there. */
const isMutated = process.env.STRYKER_MUTATOR_WORKER !== undefined;
/** What takes seconds is worked out once, and kept by the hash of source and code. */
const results = isMutated ? keptResults(null) : keptResults();
const solver = isMutated
  ? keepingSolver({ folder: null })
  : keepingSolver({ lock: openLock([join(CONTENT, LOCK_FILE)], console.warn) });

let computed: readonly ComputedSystem[] | undefined;

/** States a search may expand here: a quick sequence does where it need not be the best. */
const LITTLE = 60;

/** What a build publishes, where one has found it or it ships solved; else a quick sequence. */
const solve = (problem: SearchProblem, start: Pick<Start, 'id'>) =>
  solver.has(problem, solver.budgetFrom(start))
    ? solver.solveFrom(problem, start)
    : solveSequence(problem, LITTLE);

/** Every shipped system with all that is computed of it; made once a process. */
export function shippedSystems(): readonly ComputedSystem[] {
  if (computed) return computed;
  const { entries } = loadEntries(CONTENT);
  const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
  const symptoms = new Map([...entries.symptoms].map(([id, { data }]) => [id, data]));
  const means = { symptoms, results, solve };
  computed = [...entries.systems.values()].map((e) => computeSystem(e, devices, means));
  return computed;
}

/** One shipped system. */
export function shippedSystem(id: string): ComputedSystem {
  const found = shippedSystems().find((system) => system.id === id);
  if (!found) throw new RangeError(`no shipped system ${id}`);
  return found;
}
