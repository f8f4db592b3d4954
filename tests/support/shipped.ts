import { fileURLToPath } from 'node:url';
import { type SearchProblem, solveSequence } from '../../src/diagnosis/search/index.ts';
import { loadEntries } from '../../src/entries/index.ts';
import { type ComputedSystem, computeSystem } from '../../src/reference/compute.ts';
import { keptResults } from '../../src/reference/results/index.ts';

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));

/**
 * What takes seconds is worked out once a run, and kept by the hash of source and code. A
 * mutation tester changes what code does and not what it says, so nothing is kept there.
 */
const results = process.env.STRYKER_MUTATOR_WORKER ? keptResults(null) : keptResults();

let computed: readonly ComputedSystem[] | undefined;

/** States a search may expand here: a quick sequence does where it need not be the best. */
const LITTLE = 60;

/** Every shipped system with all that is computed of it; made once a process. */
export function shippedSystems(): readonly ComputedSystem[] {
  if (computed) return computed;
  const { entries } = loadEntries(CONTENT);
  const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
  const symptoms = new Map([...entries.symptoms].map(([id, { data }]) => [id, data]));
  const means = {
    symptoms,
    results,
    solve: (problem: SearchProblem) => solveSequence(problem, LITTLE),
  };
  computed = [...entries.systems.values()].map((e) => computeSystem(e, devices, means));
  return computed;
}

/** One shipped system. */
export function shippedSystem(id: string): ComputedSystem {
  const found = shippedSystems().find((system) => system.id === id);
  if (!found) throw new RangeError(`no shipped system ${id}`);
  return found;
}
