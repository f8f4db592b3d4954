import type { History } from '../faults/index.ts';
import { ANSWER_CODES } from './codes.ts';
import type { Model } from './model.ts';
import { answerWord, type Observation } from './observation.ts';
import { questionOf } from './question.ts';

/**
 * A printed order of tests from one complaint, packed: a test by its place in the system's list,
 * then each answer, by code, with what follows. 0 where it ends.
 */
export type OrderTree =
  | 0
  | readonly [test: number, ...branches: (readonly [answer: number, next: OrderTree])[]];

export interface Order {
  /** Id of what it starts from: a symptom’s entry, or a start that no symptom names. */
  readonly id: string;
  readonly history: History;
  /** Answers by which the complaint is known, as test and code: all those of any one of these. */
  readonly shows: readonly (readonly (readonly [test: number, answer: number])[])[];
  readonly tree: OrderTree;
}

/**
 * The test that the printed order comes to, by its place in the list. Null where no order was
 * kept to: nothing of its complaint was reported, an answer it does not know, or something beside
 * it that rules out part of what it goes by; and where it has ended, or comes to what cannot be
 * made.
 * @param own id of the order that was begun on, which comes before any other: whoever begins on it
 *   has its complaint, whichever of its appearances that is; null where none was.
 */
export function followed(
  orders: readonly Order[],
  model: Model,
  observations: readonly Observation[],
  allows: (test: number) => boolean,
  own: string | null,
): number | null {
  const reported = new Map<number, number>();
  for (const observation of observations) {
    const at = model.listedAt(questionOf(observation));
    const code = ANSWER_CODES[answerWord(observation)];
    // Read again and otherwise: which of the two is right no printed order knows.
    if (at === undefined || (reported.get(at) ?? code) !== code) return null;
    reported.set(at, code);
  }
  const inTurn = [...reported.keys()];
  const isReported = ([test, code]: readonly [number, number]) => reported.get(test) === code;
  const begun = orders
    .filter(({ history }) => history === model.history)
    .flatMap(({ id, shows, tree }) => {
      const isOwn = id === own;
      const known = isOwn
        ? [shows.flat().filter(isReported)]
        : shows.filter((all) => all.every(isReported));
      return known.map((shown) => ({ shown, tree, isOwn }));
    })
    .map((one) => {
      const first = inTurn.slice(0, one.shown.length);
      return { ...one, isFirst: one.shown.every(([test]) => first.includes(test)) };
    })
    // What was reported before anything else is the complaint; of these the one that says most.
    .toSorted(
      (a, b) =>
        Number(b.isOwn) - Number(a.isOwn) ||
        Number(b.isFirst) - Number(a.isFirst) ||
        b.shown.length - a.shown.length,
    );
  for (const { shown, tree } of begun) {
    const test = along(tree, shown, reported, model, allows);
    if (test !== null) return test;
  }
  return null;
}

function along(
  from: OrderTree,
  shown: Order['shows'][number],
  reported: ReadonlyMap<number, number>,
  model: Model,
  allows: (test: number) => boolean,
): number | null {
  const comesAndGoes = model.history === 'comes and goes';
  const made = new Map<number, number>(shown);
  let tree = from;
  while (tree !== 0) {
    const [test, ...branches] = tree;
    const code = reported.get(test);
    if (code === undefined) {
      if (allows(test)) break;
      // Where it comes and goes each step stands by itself: one that cannot be made is passed over.
      if (!comesAndGoes) return null;
      tree = branches[0]?.[1] ?? 0;
      continue;
    }
    made.set(test, code);
    tree = branches.find(([answer]) => covers(answer, code))?.[1] ?? 0;
  }
  if (tree === 0) return null;
  const beside = [...reported].filter(([test]) => !made.has(test));
  // What behaves well rules nothing out; what was caught is no longer looked for blindly.
  const sound = model.singles.at(-1)!.row!;
  if (comesAndGoes) return agrees(sound, beside) ? tree[0] : null;
  const open = model.singles.filter(({ row }) => row && agrees(row, made));
  const rulesOut = beside.some((one) => open.some(({ row }) => !agrees(row!, [one])));
  return rulesOut ? null : tree[0];
}

/** Whether a reported answer is the one that is named: what is no short may have any other ohms. */
const covers = (named: number, code: number): boolean =>
  named === code || (named === ANSWER_CODES['no short'] && code !== ANSWER_CODES.joined);

/** Whether an explanation shows all of some answers, or leaves them unsettled or overlooked. */
function agrees(row: Uint8Array, answers: Iterable<readonly [number, number]>): boolean {
  for (const [test, code] of answers) {
    const own = row[test]!;
    const unseen = own === ANSWER_CODES.found && code === ANSWER_CODES.nothing;
    if (!covers(own, code) && own !== ANSWER_CODES.unsettled && !unseen) return false;
  }
  return true;
}
