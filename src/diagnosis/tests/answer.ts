import {
  changeNetwork,
  readClass,
  resistanceBetween,
  type Seen,
  type Settled,
  type Simulation,
  type Solution,
  solve,
} from '../../circuit/index.ts';
import { INSULATION_LIMITS } from '../../published/index.ts';
import { settledAt } from '../../site/index.ts';
import type { TestPair } from '../../wiring/index.ts';
import { type Answer, liveAnswer } from '../answers.ts';
import type { DeadAnswer, FuseAnswer, FuseTest, Test } from './kinds.ts';

/**
 * Any answer to a test, as one word. Unsettled: it depends on what nobody knows on site, the
 * instrument’s load, the cables’ strays or what stands on a board.
 */
export type TestAnswer =
  | Answer
  | DeadAnswer
  | FuseAnswer
  | 'seen'
  | 'not seen'
  | 'comes and goes'
  | 'unsettled';

/** Largest resistance that still counts as joined, ohms (common practice, no source). */
export const JOINED_OHMS = 2;
/** Least resistance that counts as open, ohms: the insulation limit. */
export const OPEN_OHMS = INSULATION_LIMITS.mains.megohms * 1e6;

/**
 * What a test answers in a circuit.
 * @throws RangeError for a mode or outcome that the circuit does not have.
 */
export function answerIn(simulation: Simulation, test: Test): TestAnswer {
  const settled = settledAt(simulation, test.mode, test.place);
  switch (test.kind) {
    case 'look':
      return seenAnswer(settled.outcomes.get(test.outcome));
    case 'live':
      return settledAnswer(settled, test.pair);
    case 'dead':
      return deadTestAnswer(settled, test.pair);
    case 'fuse':
      return fuseAnswer(settled, test);
  }
}

/**
 * A reading that an instrument of no load at all would class otherwise is of ghost volts, or of
 * a supply through a load: nothing rests on it, except where it is taken under load.
 */
function settledAnswer({ solution }: Settled, pair: TestPair): TestAnswer {
  const answer = liveAnswer(solution, pair);
  if (pair.kind === 'line' || pair.kind === 'call') return answer;
  return readClass(solution, pair.from, pair.to, NO_LOAD) === answer ? answer : 'unsettled';
}

const NO_LOAD = { ohms: 1e15, farads: 0 };

/** Ohms through a board say nothing of it, so what they decide is unsettled. */
function deadTestAnswer(settled: Settled, { from, to }: TestPair): TestAnswer {
  const answer = deadAnswer(resistanceBetween(settled.solution, from, to));
  const open = deadAnswer(resistanceBetween(withoutBoards(settled), from, to));
  return open === answer ? answer : 'unsettled';
}

const bare = new WeakMap<Settled, Solution>();

/** The circuit as it rests, with every board open. */
function withoutBoards(settled: Settled): Solution {
  const known = bare.get(settled);
  if (known) return known;
  const { network } = settled.solution;
  const boards = network.branches.flatMap((b) =>
    b.kind === 'element' && b.element.kind === 'load' && b.element.draws === 'board' ? b.id : [],
  );
  const opened = changeNetwork(
    network,
    boards.map((branch) => ({ kind: 'open', branch })),
  );
  const made = solve(opened, settled.state);
  bare.set(settled, made);
  return made;
}

/** What the fuse link is, against the rating this item's device gives it. */
function fuseAnswer(
  { solution: { network }, state }: Settled,
  { item, branch: id }: FuseTest,
): FuseAnswer {
  const branch = network.branches[network.branchIndex.get(id)!]!;
  if (branch.kind !== 'element' || state.blown.has(id)) return 'blown';
  const due = network.items.get(item)!.device.elements[branch.name];
  const fits =
    'rating' in branch.element && due && 'rating' in due && branch.element.rating === due.rating;
  return fits ? 'intact' : 'wrong rating';
}

function seenAnswer(seen: Seen | undefined): TestAnswer {
  if (seen === undefined) throw new RangeError('a look needs an outcome that the system has');
  if (seen === 'hunting') return 'comes and goes';
  return seen ? 'seen' : 'not seen';
}

/** Answer of a resistance, ohms. */
export function deadAnswer(ohms: number): DeadAnswer {
  if (ohms <= JOINED_OHMS) return 'joined';
  return ohms < OPEN_OHMS ? 'resistance' : 'open';
}
