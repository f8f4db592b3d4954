import { FUSE_BREAKS, TYPE_B_TRIP_MULTIPLE } from '../published/index.ts';
import { MOST_ROUNDS } from './constants.ts';
import type { ElementBranch, Network } from './network.ts';
import { holds } from './rules.ts';
import { branchCurrent, effectiveAmps, effectiveVolts, type Solution, solve } from './solve.ts';
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
  let state: State = { ...memory, conditions };
  const seen = new Map<string, number>();
  const states: State[] = [];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const solution = solve(network, state);
    const next = step(network, state, solution);
    const key = keyOf(state);
    if (keyOf(next) === key) return { state, solution, round: [state], hunting: [] };
    seen.set(key, states.length);
    states.push(state);
    const first = seen.get(keyOf(next));
    if (first !== undefined) {
      const repeated = states.slice(first);
      return {
        state: next,
        solution: solve(network, next),
        round: repeated,
        hunting: changingItems(network, repeated),
      };
    }
    state = next;
  }
  throw new RangeError(
    `${network.id} has not come to rest nor repeated itself after ${MOST_ROUNDS} rounds`,
  );
}

function step(network: Network, state: State, solution: Solution): State {
  const energised = new Set<string>();
  const held = new Set<string>();
  network.branches.forEach((branch, i) => {
    if (branch.kind !== 'element') return;
    const { element } = branch;
    if (!('operates' in element) || branch.idle) return;
    const share = effectiveVolts(solution, i) / element.ratedVolts;
    if (share >= element.operates) energised.add(branch.id);
    if (share >= element.holds) held.add(branch.id);
  });
  const blown = openOneFuse(network, state, solution);
  const now: State = { ...state, energised, held, blown };
  // A contact makes in milliseconds and a valve moves in seconds: nothing moves until the
  // electrics are at rest where they stand.
  const quiet = same(energised, state.energised) && same(held, state.held) && blown === state.blown;
  return quiet ? { ...now, positions: movePositions(network, now) } : now;
}

const same = (a: ReadonlySet<string>, b: ReadonlySet<string>): boolean =>
  a.size === b.size && [...a].every((value) => b.has(value));

function openOneFuse(network: Network, state: State, solution: Solution): ReadonlySet<string> {
  let worst: { id: string; excess: number } | undefined;
  network.branches.forEach((branch, i) => {
    if (branch.kind !== 'element' || state.blown.has(branch.id)) return;
    const limit = breakingAmps(branch);
    if (limit === null) return;
    const excess = Math.max(
      effectiveAmps(solution, i) / limit,
      residualExcess(network, branch, solution, i),
    );
    if (excess >= 1 && excess > (worst?.excess ?? 0)) worst = { id: branch.id, excess };
  });
  return worst ? new Set([...state.blown, worst.id]) : state.blown;
}

/**
 * Residual current of a breaker as a multiple of what it trips at, here its full rated residual
 * current: between half of that and all of it one may trip and another not.
 */
function residualExcess(
  network: Network,
  { element, item }: ElementBranch,
  solution: Solution,
  line: number,
): number {
  if (element.kind !== 'breaker' || !element.residual) return 0;
  const neutral = network.branchIndex.get(`${item}/${element.residual.neutral}`)!;
  const out = branchCurrent(solution, line, 'ac');
  const back = branchCurrent(solution, neutral, 'ac');
  return Math.hypot(out.re + back.re, out.im + back.im) / element.residual.amps;
}

/** Current at which a fuse or breaker must open, amperes; null for anything else. */
export function breakingAmps({ element }: ElementBranch): number | null {
  if (element.kind === 'fuse') return element.rating * FUSE_BREAKS[element.standard].multiple;
  if (element.kind === 'breaker') return element.rating * TYPE_B_TRIP_MULTIPLE;
  return null;
}

function movePositions(network: Network, state: State): ReadonlyMap<string, string> {
  const positions = new Map(state.positions);
  for (const [item, { device }] of network.items) {
    if (network.stuck.has(item)) continue;
    const position = positions.get(item);
    const move = device.mechanism?.moves.find(
      (m) => m.from === position && holds(m.when, item, state),
    );
    if (move) positions.set(item, move.to);
  }
  return positions;
}

/** What may change on the way to rest, as text. Sets and maps keep the order of the branches. */
function keyOf({ energised, held, blown, positions }: State): string {
  return JSON.stringify([energised, held, blown, positions].map((values) => [...values]));
}

function changingItems(network: Network, round: readonly State[]): string[] {
  return [...network.items.keys()].filter((item) => {
    const views = round.map(({ energised, held, blown, positions }) => {
      const own = [energised, held, blown].map((ids) =>
        [...ids].filter((id) => id.startsWith(`${item}/`)),
      );
      return JSON.stringify([own, positions.get(item)]);
    });
    return new Set(views).size > 1;
  });
}
