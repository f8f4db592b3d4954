import { buildNetwork, simulate } from '../circuit/index.ts';
import { type Effects, fileSystem } from './effects.ts';
import { type Computed, expectationProblems } from './expectations.ts';
import { type Loaded, loadEntries } from './load.ts';
import { inOrder } from './problem.ts';
import { reportFor } from './report.ts';
import { symptomSoundProblems } from './symptom-proof.ts';
import type { Entries, Problem } from './types.ts';

/**
 * Reads a content folder and proves it: every problem of its files, every difference
 * between what its systems expect and what the engine computes from them, and every symptom
 * that a sound system shows.
 */
export function checkEntries(root: string, effects: Effects = fileSystem): Loaded {
  const loaded = loadEntries(root, effects);
  return { ...loaded, problems: inOrder([...loaded.problems, ...provingProblems(loaded.entries)]) };
}

/** Simulates every system and compares; what the engine refuses is a problem too. */
export function provingProblems(entries: Entries): Problem[] {
  const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
  const computed = new Map<string, Computed>();
  const refused: Problem[] = [];
  for (const [id, { data, places }] of entries.systems) {
    try {
      computed.set(id, simulate(buildNetwork(id, data, devices)));
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      const report = reportFor(places);
      report.key('circuit-refused', [], `the circuit cannot be computed: ${error.message}`);
      refused.push(...report.problems);
    }
  }
  return [
    ...refused,
    ...expectationProblems(entries, computed),
    ...symptomSoundProblems(entries, computed),
  ];
}
