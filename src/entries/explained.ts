import type { Simulation } from '../circuit/index.ts';
import { nearestWiring } from './nearest-wiring.ts';
import { reportFor } from './report.ts';
import type { Entries, Problem } from './types.ts';

/** Fewest expectations that a slip in the wiring is looked for behind: one alone is likelier a slip in what is expected. */
const LEAST = 2;

/**
 * What systems do otherwise than is expected of them, the cause first: where several expectations
 * differ and one change of wiring makes every one hold, it is one problem, and they stand beneath
 * it. What house standards find stays beside it: some of that is danger.
 *
 * @param computed by system id
 */
export function explainedByWiring(
  { systems }: Pick<Entries, 'systems'>,
  computed: ReadonlyMap<string, Simulation>,
  problems: readonly Problem[],
): Problem[] {
  return [...Map.groupBy(problems, ({ file }) => file)].flatMap(([file, own]) => {
    const entry = [...systems.values()].find((one) => one.file === file);
    const simulation = entry && computed.get(entry.id);
    const change = simulation && own.length >= LEAST ? nearestWiring(simulation) : null;
    if (!entry || !change) return own;
    const report = reportFor(entry.places);
    const message = `${change.words}, and all ${own.length} expectations that differ hold`;
    report.key('wiring-differs', change.path, message, {
      mend: mendOf(change.others),
      beneath: own.map((one) => one.message),
    });
    return report.problems;
  });
}

/** Others that do as well are told, for the slip may have been made there. */
function mendOf(others: readonly string[]): string {
  const told = others.slice(0, 2).map((words) => `Or: ${words}. `);
  return `${told.join('')}Compare with what is on the wall; where that is as written here, what the modes expect is wrong`;
}
