import type { Simulation } from '../circuit/index.ts';
import { nearestWiring } from './nearest-wiring.ts';
import { reportFor } from './report.ts';
import { standardsProof } from './standards-proof.ts';
import type { Entries, Problem } from './types.ts';

const DIFFERS: readonly string[] = ['expectation-differs', 'mode-hunts'];
/** Fewest of them that a slip in the wiring is looked for behind: one alone is likelier a slip in what is expected. */
const LEAST = 2;

/**
 * Problems of systems that do not do what is expected of them, the cause first: where several
 * expectations differ and one change of wiring makes every one hold, it is one problem, and what
 * it puts right, standards too, stands beneath it.
 *
 * @param computed by system id
 * @param today date by which exceptions hold, YYYY-MM-DD
 */
export function explainedByWiring(
  entries: Entries,
  computed: ReadonlyMap<string, Simulation>,
  today: string,
  problems: readonly Problem[],
): Problem[] {
  return [...Map.groupBy(problems, ({ file }) => file)].flatMap(([file, own]) => {
    const entry = [...entries.systems.values()].find((one) => one.file === file);
    const simulation = entry && computed.get(entry.id);
    const differing = own.filter(({ code }) => DIFFERS.includes(code)).length;
    if (!simulation || differing < LEAST) return own;
    const change = nearestWiring(simulation);
    if (!change) return own;
    const righted = { ...entry, data: change.system };
    const left = standardsProof(
      { standards: entries.standards, systems: new Map([[entry.id, righted]]) },
      new Map([[entry.id, change.simulation]]),
      today,
    ).problems;
    const stays = new Set(left.map(keyOf));
    const report = reportFor(entry.places);
    const message = `${change.words}, and all ${differing} expectations that differ hold`;
    report.key('wiring-differs', change.path, message, {
      mend: mendOf(change.others),
      beneath: own.filter((one) => !stays.has(keyOf(one))).map((one) => one.message),
    });
    return [...report.problems, ...own.filter((one) => stays.has(keyOf(one)))];
  });
}

/** Others that do as well are told, for the slip may have been made there. */
function mendOf(others: readonly string[]): string {
  const told = others.slice(0, 2).map((words) => `Or: ${words}. `);
  return `${told.join('')}Compare with what is on the wall; where that is as written here, what the modes expect is wrong`;
}

const keyOf = ({ code, path, message }: Problem): string => `${code} ${path} ${message}`;
