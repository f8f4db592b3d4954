import type { System } from '../../schemas/index.ts';
import type { Simulation } from '../circuit/index.ts';
import { bodyReferenceProblems } from './body-references.ts';
import type { ProblemCode } from './catalogue.ts';
import { nearestWiring } from './nearest-wiring.ts';
import { reportFor } from './report.ts';
import type { Entries, Problem } from './types.ts';
import type { Candidate } from './validate.ts';

/** Fewest things wrong that a slip in the wiring is looked for behind: one alone is likelier a slip in what is expected. */
const LEAST = 2;

/** What prose reads, and the wiring leaves without anything to be read against. */
const READING: ProblemCode = 'reading-against-nothing';

/** Problems with those that one slip of wiring explains told as one. */
export interface Explained {
  readonly problems: readonly Problem[];
  /** Those of the prose that stand beneath it. */
  readonly folded: ReadonlySet<Problem>;
}

/**
 * What systems do otherwise than is expected of them, the cause first: where several things are
 * wrong and one change of wiring makes every expectation hold, it is one problem, and they stand
 * beneath it, with what prose reads and the slip alone leaves unread. What house standards find
 * stays beside it: some of that is danger.
 *
 * @param computed by system id
 * @param differing expectations that differ
 * @param misread systems whose prose reads what cannot be read, by id
 * @param read what is wrong with them
 */
export function explainedByWiring(
  { systems }: Pick<Entries, 'systems'>,
  computed: ReadonlyMap<string, Simulation>,
  differing: readonly Problem[],
  misread: ReadonlyMap<string, Candidate<System>>,
  read: readonly Problem[],
): Explained {
  const folded = new Set<Problem>();
  const problems = [...Map.groupBy(differing, ({ file }) => file)].flatMap(([file, own]) => {
    const entry = [...systems.values()].find((one) => one.file === file);
    const simulation = entry && computed.get(entry.id);
    const unread = read.filter((one) => one.file === file && one.code === READING);
    if (!simulation || own.length + unread.length < LEAST) return own;
    const change = nearestWiring(simulation);
    if (!change) return own;
    const candidate = misread.get(entry.id);
    const stillUnread = candidate
      ? bodyReferenceProblems(
          candidate.tags,
          change.system,
          candidate.places,
          (item) => simulation.network.items.get(item)?.device,
        ).map(placeOf)
      : [];
    const followed = unread.filter((one) => !stillUnread.includes(placeOf(one)));
    if (own.length + followed.length < LEAST) return own;
    for (const one of followed) folded.add(one);
    const report = reportFor(entry.places);
    const hold =
      own.length === 1
        ? 'the one expectation that differs holds'
        : `all ${own.length} expectations that differ hold`;
    report.key('wiring-differs', change.path, `${change.words}, and ${hold}`, {
      mend: mendOf(change.others),
      beneath: [...followed.map(readingWords), ...own.map((one) => one.message)],
    });
    return report.problems;
  });
  return { problems, folded };
}

const placeOf = ({ code, position: { line, column } }: Problem) => `${code} ${line}:${column}`;

/** What is wrong with a reading, without how it would be put right were the wiring as it should be. */
const readingWords = ({ message, position }: Problem) =>
  `in line ${position.line}, ${message.split(';')[0]}`;

/** Others that do as well are told, for the slip may have been made there. */
function mendOf(others: readonly string[]): string {
  const told = others.slice(0, 2).map((words) => `Or: ${words}. `);
  return `${told.join('')}Compare with what is on the wall; where that is as written here, what the modes expect is wrong`;
}
