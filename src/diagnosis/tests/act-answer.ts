import {
  CLASS_LIMITS,
  changeNetwork,
  INSTRUMENTS,
  magnitude,
  type Network,
  readClass,
  resistanceBetween,
  rewireNetwork,
  type Solution,
  type State,
  solve,
  voltage,
} from '../../circuit/index.ts';
import type { Place } from '../../site/index.ts';
import type { Ohms } from '../../units/index.ts';
import { type CoreEnd, coreEnds, itemOf, looseCoreEnd } from '../../wiring/index.ts';
import type { ActTest } from './kinds.ts';

/** Under load, as dead is proved: what collapses was never a supply. */
const LOADED = INSTRUMENTS.at(-1)!;

/** Whether a place is live in a circuit as it rests with its isolator off: what proving dead finds. */
export function isLiveAt(solution: Parameters<typeof readClass>[0], { terminals }: Place): boolean {
  const { network, ac } = solution;
  const earth = network.branches.find(({ kind, id }) => kind === 'supply' && id.endsWith('earth'));
  if (!earth) return false;
  const origin = network.nodes[earth.from]!;
  return terminals.some((point) => {
    const node = network.nodes[network.nodeIndex.get(point)!]!;
    if (node.terminal?.carries === 'earth') return false;
    const open = magnitude(voltage(ac, node.index, origin.index));
    return open > CLASS_LIMITS.dead && readClass(solution, point, origin.id, LOADED) !== 'dead';
  });
}

/**
 * The resistance that a disconnected core test reads, ohms: infinite where a core is not there.
 * @param state the circuit's, isolated; nothing moves when cores are disconnected dead.
 */
export function disconnectedOhms(network: Network, state: State, test: ActTest): Ohms {
  const { points, without } = test;
  const solution = disconnected(network, state, endsOf(network, test), without);
  const there = points.every((point) => solution.network.nodeIndex.has(point));
  return there
    ? resistanceBetween(solution, points[0]!, points[1]!)
    : (Number.POSITIVE_INFINITY as Ohms);
}

/** Core ends that are disconnected for a test. */
function endsOf({ system }: Network, { act, points, part }: ActTest): CoreEnd[] {
  const all = coreEnds(system);
  if (act === 'part') return all.filter(({ point }) => itemOf(point) === part);
  const [, cable, end] = /^(.+)\.[A-Z]+@([12])$/.exec(points[0]!)!;
  return all.filter((one) => one.cable === cable && one.end === Number(end) - 1);
}

const known = new WeakMap<Network, Map<string, Solution>>();

function disconnected(
  network: Network,
  state: State,
  ends: readonly CoreEnd[],
  without: string | undefined,
): Solution {
  const own = known.get(network) ?? new Map<string, Solution>();
  known.set(network, own);
  const key = [
    without,
    ...ends.map(({ cable, colour, end }) => `${cable}.${colour}@${end}`),
  ].join();
  const before = own.get(key);
  if (before) return before;
  const system = ends.reduce((wired, end) => looseCoreEnd(wired, end), network.system);
  // A fault that calls by itself is not turned down.
  const stays = without === undefined || network.set.has(without);
  const conditions = stays ? state.conditions : new Map([...state.conditions, [without, false]]);
  const made = solve(rewireNetwork(network, system), { ...state, conditions });
  own.set(key, made);
  return made;
}

/** The same circuit with every board open: ohms through a board say nothing of it. */
export function boardless(network: Network): Network {
  const before = bare.get(network);
  if (before) return before;
  const boards = network.branches.flatMap((b) =>
    b.kind === 'element' && b.element.kind === 'load' && b.element.draws === 'board' ? b.id : [],
  );
  const made = changeNetwork(
    network,
    boards.map((branch) => ({ kind: 'open', branch })),
  );
  bare.set(network, made);
  return made;
}

const bare = new WeakMap<Network, Network>();
