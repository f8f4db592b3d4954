import { MOST_ROUNDS } from './constants.ts';
import type { Network } from './network.ts';
import { type Breaking, type Prepared, prepare } from './prepared.ts';
import { isSame, type Marks, type Register } from './register.ts';
import {
  branchCurrent,
  effectiveAmps,
  effectiveVolts,
  type Solution,
  solveMarks,
} from './solve.ts';
import type { Memory, State } from './state.ts';

/** Where a network comes to rest, or the round of states it goes through without rest. */
export interface Rest {
  readonly state: State;
  readonly solution: Solution;
  /** The states of the round when it hunts; just the one state otherwise. */
  readonly round: readonly State[];
  /** Items whose contacts, windings or positions keep changing; empty at rest. */
  readonly hunting: readonly string[];
}

/** The same with its states as marks. */
export interface RestMarks {
  readonly state: Marks;
  readonly solution: Solution;
  readonly round: readonly Marks[];
  readonly hunting: readonly string[];
}

/**
 * Lets a network find its rest: conditions set contacts, contacts set voltages, voltages
 * set windings, positions and fuses, and these set contacts again.
 *
 * Mechanisms move one step a round, and only in a round in which the electrics are at rest;
 * at most one fuse opens a round: the one whose current exceeds its limit by the largest
 * multiple.
 */
export function settle(
  network: Network,
  conditions: ReadonlyMap<string, boolean>,
  memory: Memory,
): Rest {
  const { register } = prepare(network);
  const rest = settleMarks(network, register.marksOf({ ...memory, conditions }));
  const stateOf = (marks: Marks) => register.stateOf(marks, conditions);
  return { ...rest, state: stateOf(rest.state), round: rest.round.map(stateOf) };
}

/**
 * Every state a network passes through as it comes to rest, from the one it is given to the one
 * it rests in: what works before what it moves. One that hunts ends where it repeats itself.
 */
export function settling(
  network: Network,
  conditions: ReadonlyMap<string, boolean>,
  memory: Memory,
): State[] {
  const prepared = prepare(network);
  const { register } = prepared;
  const passed: Marks[] = [];
  let state = register.marksOf({ ...memory, conditions });
  while (!passed.some((earlier) => isSame(earlier, state)) && passed.length < MOST_ROUNDS) {
    passed.push(state);
    state = step(prepared, state, solveMarks(prepared, state));
  }
  return passed.map((marks) => register.stateOf(marks, conditions));
}

/** The same from a state as marks, which is left as it is. */
export function settleMarks(network: Network, from: Marks): RestMarks {
  const prepared = prepare(network);
  const states: Marks[] = [];
  let state = from;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const solution = solveMarks(prepared, state);
    const next = step(prepared, state, solution);
    if (isSame(next, state)) return { state, solution, round: [state], hunting: [] };
    states.push(state);
    const first = states.findIndex((earlier) => isSame(earlier, next));
    if (first >= 0) {
      const repeated = states.slice(first);
      return {
        state: next,
        solution: solveMarks(prepared, next),
        round: repeated,
        hunting: changingItems(prepared.register, repeated),
      };
    }
    state = next;
  }
  throw new RangeError(
    `${network.id} has not come to rest nor repeated itself after ${MOST_ROUNDS} rounds`,
  );
}

/** What a solution's voltages and currents do, whatever the state that led to it. */
interface Forces {
  /** By winding of the network, in its order: 1 where it operates, where it holds. */
  readonly operates: Uint8Array;
  readonly holds: Uint8Array;
  /** Place of the mark of the fuse or breaker that opens; −1 where none does. */
  readonly opens: number;
}

const known = new WeakMap<Solution, Forces>();

function forcesOf({ windings, breakings }: Prepared, state: Marks, solution: Solution): Forces {
  const before = known.get(solution);
  if (before) return before;
  const operates = new Uint8Array(windings.length);
  const holds = new Uint8Array(windings.length);
  windings.forEach((winding, i) => {
    if (winding.isThere && !winding.isThere(state)) return;
    const share = effectiveVolts(solution, winding.branch) / winding.ratedVolts;
    if (share >= winding.operates) operates[i] = 1;
    if (share >= winding.holds) holds[i] = 1;
  });
  let opens = -1;
  let worst = 0;
  for (const breaking of breakings) {
    const { branch, blown, limit, parts } = breaking;
    if (state[blown] === 1) continue;
    const excess = Math.max(
      effectiveAmps(solution, branch, parts) / limit,
      residualExcess(breaking, solution),
    );
    if (excess >= 1 && excess > worst) {
      worst = excess;
      opens = blown;
    }
  }
  const made = { operates, holds, opens };
  known.set(solution, made);
  return made;
}

/** By how much line and neutral current differ, as a multiple of what trips it. */
function residualExcess({ branch, residual, parts }: Breaking, solution: Solution): number {
  if (!residual) return 0;
  const out = branchCurrent(solution, branch, 'ac', parts);
  const back = branchCurrent(solution, residual.neutral, 'ac');
  return Math.hypot(out.re + back.re, out.im + back.im) / residual.amps;
}

function step(prepared: Prepared, state: Marks, solution: Solution): Marks {
  const { network, register, windings } = prepared;
  const { operates, holds, opens } = forcesOf(prepared, state, solution);
  const next = state.slice();
  next.fill(0, register.windings.from, register.windings.to);
  for (let i = 0; i < windings.length; i++) {
    next[windings[i]!.energised] = operates[i]!;
    next[windings[i]!.held] = holds[i]!;
  }
  if (opens >= 0) next[opens] = 1;
  // A contact makes in milliseconds and a valve moves in seconds: nothing moves until the
  // electrics are at rest where they stand.
  return isSame(next, state) ? movePositions(network, register, state) : next;
}

/** Every mechanism one step on where one of its moves is due, all seen from the same state. */
function movePositions({ stuck }: Network, { moves }: Register, state: Marks): Marks {
  const next = state.slice();
  for (const { item, at, from, to, when } of moves) {
    // The first move that is due takes it away from where the others start.
    if (next[at] === from && state[at] === from && !stuck.has(item) && when(state)) next[at] = to;
  }
  return next;
}

/** Items of which something changes in a round of states. */
function changingItems(register: Register, round: readonly Marks[]): string[] {
  const changes = (at: number) => round.some((state) => state[at] !== round[0]![at]);
  return [...register.placesOf].flatMap(([item, places]) => (places.some(changes) ? item : []));
}
