import { ISOLATED } from '../../../schemas/index.ts';
import {
  type Network,
  readClass,
  resistanceBetween,
  type Seen,
  type Settled,
  type Simulation,
  type Solution,
  type State,
  solve,
} from '../../circuit/index.ts';
import { linkedIn, placeNamed, type Situation, settledAt, settledIn } from '../../site/index.ts';
import type { TestPair } from '../../wiring/index.ts';
import { type Answer, liveAnswer } from '../answers.ts';
import {
  boardless,
  disconnectedOhms,
  isLiveAt,
  joinedToEarthOhms,
  leadInsulationOhms,
  takesOut,
} from './act-answer.ts';
import type { ActTest, DeadAnswer, FuseAnswer, FuseTest, InspectAnswer, Test } from './kinds.ts';
import { deadAnswer, insulationAnswer, joinedOhms } from './limits.ts';

/**
 * Any answer to a test, as one word. Unsettled: it depends on what nobody knows on site, the
 * instrument’s load or the cables’ strays. No short: a resistance or open, which of them depends
 * on what stands on a board; joined it is not.
 */
export type TestAnswer =
  | Answer
  | DeadAnswer
  | FuseAnswer
  | 'seen'
  | 'not seen'
  | 'comes and goes'
  | 'unsettled'
  | 'no short'
  | InspectAnswer;

/**
 * What a test answers in a circuit.
 * @throws RangeError for a mode or outcome that the circuit does not have.
 */
export function answerIn(simulation: Simulation, test: Test): TestAnswer {
  if (test.kind === 'act') return actAnswer(simulation, test);
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
 * A reading that another instrument would class otherwise is of ghost volts, or of a supply
 * through a load: nothing rests on it. A line to its neutral is read under load, so the loads of
 * such instruments decide; anything else is read on whatever is in the hand.
 */
function settledAnswer({ solution }: Settled, pair: TestPair): TestAnswer {
  const answer = liveAnswer(solution, pair);
  if (pair.kind === 'call') return answer;
  const range = pair.kind === 'line' ? LOADS : RANGE;
  const isSo = (instrument: (typeof RANGE)[number]) =>
    readClass(solution, pair.from, pair.to, instrument) === answer;
  return range.every(isSo) ? answer : 'unsettled';
}

/** The least and the greatest load of an instrument that loads on purpose, ohms (common practice, no source). */
export const INSTRUMENT_LOADS = [2e3, 3e3] as const;
/** No load at all, ohms. */
export const NO_LOAD_OHMS = 1e15;
const LOADS = INSTRUMENT_LOADS.map((ohms) => ({ ohms, farads: 0 }));
/** From no load at all to the greatest. */
const RANGE = [{ ohms: NO_LOAD_OHMS, farads: 0 }, LOADS[0]!];

/**
 * Ohms through a board say nothing of it, but that no short lies beside it; nor do an ohmmeter’s
 * few volts tell of damp to earth, which is an insulation test.
 */
function deadTestAnswer(settled: Settled, { from, to, kind }: TestPair): TestAnswer {
  const joined = joinedOhms(settled.solution.network, from, to);
  const answer = deadAnswer(resistanceBetween(settled.solution, from, to), joined);
  if (kind === 'line to earth' || kind === 'neutral to earth')
    return answer === 'joined' ? answer : 'no short';
  const open = deadAnswer(resistanceBetween(withoutBoards(settled), from, to), joined);
  return open === answer ? answer : 'no short';
}

/**
 * Whether two answers may be one: what is unsettled tells nothing from anything, no short nothing
 * but joined.
 */
export const mayBeOne = (a: TestAnswer, b: TestAnswer): boolean =>
  a === b ||
  a === 'unsettled' ||
  b === 'unsettled' ||
  (a === 'no short' && b !== 'joined') ||
  (b === 'no short' && a !== 'joined');

const bare = new WeakMap<Settled, Solution>();

/** The circuit as it rests, with every board open. */
function withoutBoards(settled: Settled): Solution {
  const known = bare.get(settled);
  if (known) return known;
  const made = solve(boardless(settled.solution.network), settled.state);
  bare.set(settled, made);
  return made;
}

/** What hands find out in a circuit; what is only to be seen in the box, no circuit tells. */
function actAnswer(simulation: Simulation, test: ActTest): TestAnswer {
  const { network, modes } = simulation;
  switch (test.act) {
    case 'prove':
      return isLiveAt(
        settledAt(simulation, ISOLATED, test.place).solution,
        placeNamed(network, test.place),
      )
        ? 'live'
        : 'dead';
    case 'inside':
    case 'compare':
      return 'nothing';
    case 'spindle':
      return 'seen';
    case 'link':
      return linkAnswer(simulation, test);
    case 'core':
    case 'part':
      return disconnectedAnswer(network, modes.get(ISOLATED)!.state, test);
    case 'insulation': {
      if (takesOut(test)) return leadInsulationAnswer(network, modes.get(ISOLATED)!.state, test);
      const { solution } = settledAt(simulation, ISOLATED, test.place);
      return placeInsulationAnswer((from, to) => resistanceBetween(solution, from, to), test);
    }
  }
}

/** What an insulation tester tells at a place, nothing taken out. */
export const placeInsulationAnswer = (
  ohms: (from: string, to: string) => number,
  { points }: ActTest,
): TestAnswer => insulationAnswer(joinedToEarthOhms(ohms, points));

/** The same of a disconnected lead. */
export const leadInsulationAnswer = (network: Network, state: State, test: ActTest): TestAnswer =>
  insulationAnswer(leadInsulationOhms(network, state, test));

/**
 * What a link shows. Where it would blow a fuse or trip a breaker it is not to be laid, so no
 * order may rest on it: unsettled.
 */
function linkAnswer(simulation: Simulation, test: ActTest): TestAnswer {
  const { state, outcomes } = settledIn(simulation, situationOf(simulation.network, test));
  const before = settledAt(simulation, test.mode, test.place).state.blown;
  if ([...state.blown].some((id) => !before.has(id))) return 'unsettled';
  return seenAnswer(outcomes.get(test.outcome!));
}

/** The class that a disconnected core test reads, where no board decides it. */
export function disconnectedAnswer(network: Network, state: State, test: ActTest): TestAnswer {
  const joined = joinedOhms(network, test.points[0]!, test.points[1]!);
  const answer = deadAnswer(disconnectedOhms(network, state, test), joined);
  if (answer === 'joined') return answer;
  const open = deadAnswer(disconnectedOhms(network, state, test, 'open'), joined);
  return open === answer ? answer : 'no short';
}

/** The situation in which a link is laid. */
export const situationOf = (network: Network, { mode, place, points }: ActTest): Situation =>
  linkedIn(mode, placeNamed(network, place), [points[0]!, points[1]!]);

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
