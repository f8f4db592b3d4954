import {
  resistanceBetween,
  type Seen,
  type Settled,
  type Simulation,
} from '../../circuit/index.ts';
import { INSULATION_LIMITS } from '../../published/index.ts';
import { type Answer, liveAnswer } from '../answers.ts';
import type { DeadAnswer, FuseAnswer, FuseTest, Test } from './kinds.ts';

/** Any answer to a test, as one word. */
export type TestAnswer = Answer | DeadAnswer | FuseAnswer | 'seen' | 'not seen' | 'comes and goes';

/** Largest resistance that still counts as joined, ohms (common practice, no source). */
export const JOINED_OHMS = 2;
/** Least resistance that counts as open, ohms: the insulation limit. */
export const OPEN_OHMS = INSULATION_LIMITS.mains.megohms * 1e6;

/**
 * What a test answers in a circuit.
 * @throws RangeError for a mode or outcome that the circuit does not have.
 */
export function answerIn(simulation: Simulation, test: Test): TestAnswer {
  const settled = simulation.modes.get(test.mode);
  if (!settled) throw new RangeError(`${simulation.network.id} has no mode ${test.mode}`);
  switch (test.kind) {
    case 'look':
      return seenAnswer(settled.outcomes.get(test.outcome));
    case 'live':
      return liveAnswer(settled.solution, test.pair);
    case 'dead':
      return deadAnswer(resistanceBetween(settled.solution, test.pair.from, test.pair.to));
    case 'fuse':
      return fuseAnswer(settled, test);
  }
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
