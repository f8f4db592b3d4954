import type { Element, System } from '../../../schemas/index.ts';
import {
  CLASS_LIMITS,
  changeNetwork,
  INSTRUMENTS,
  magnitude,
  type Network,
  openElements,
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
 * @param boards as they are, or every board open.
 */
export function disconnectedOhms(
  network: Network,
  state: State,
  test: ActTest,
  boards: 'closed' | 'open' = 'closed',
): Ohms {
  const [a, b] = test.points as [string, string];
  const solution = disconnected(network, state, test)[boards]();
  const there = [a, b].every((point) => solution.network.nodeIndex.has(point));
  return there ? resistanceBetween(solution, a, b) : (Number.POSITIVE_INFINITY as Ohms);
}

/** The insulation resistance of a disconnected lead, ohms: all its lives joined, to its earth. */
export function leadInsulationOhms(network: Network, state: State, test: ActTest): Ohms {
  const { network: cut } = disconnected(network, state, test).closed();
  const there = test.points.filter((point) => cut.nodeIndex.has(point));
  const earth = test.points.at(-1)!;
  const [first, ...others] = there.filter((point) => point !== earth);
  if (first === undefined || !there.includes(earth)) return Number.POSITIVE_INFINITY as Ohms;
  const joined = changeNetwork(
    cut,
    others.map((to) => ({ kind: 'join', from: first, to, ohms: 0.01 })),
  );
  return resistanceBetween(solve(joined, state), first, earth);
}

/**
 * The resistance to earth of a live with its neutral joined to it, ohms: of three points the star
 * that the circuit is between them (Kennelly, 1899), two of its arms side by side.
 * @param ohms resistance between two points of the circuit as it rests, isolated
 * @param points the live, its neutral, the earth
 */
export function joinedToEarthOhms(
  ohms: (from: string, to: string) => number,
  points: readonly string[],
): Ohms {
  const [live, neutral, earth] = points as [string, string, string];
  const [between, one, other] = [ohms(live, neutral), ohms(live, earth), ohms(neutral, earth)];
  const arm = (double: number) => Math.max(0, double / 2);
  const [a, b, c] = [
    arm(between + one - other),
    arm(between + other - one),
    arm(one + other - between),
  ];
  return (c + (a + b > 0 ? (a * b) / (a + b) : 0)) as Ohms;
}

/**
 * Whether a test is made on cores that are taken out for it, so that it sees nothing but their
 * lead and the part behind it.
 */
export const takesOut = ({ part, points }: ActTest): boolean =>
  part !== undefined || points.some((point) => point.includes('@'));

/** Core ends that are disconnected for a test. */
function endsOf(system: System, { act, points, part }: ActTest): CoreEnd[] {
  const all = coreEnds(system);
  if (act === 'part') return all.filter(({ point }) => itemOf(point) === part);
  const [, cable, end] = /^(.+)\.[A-Z]+@([12])$/.exec(points[0]!)!;
  return all.filter((one) => one.cable === cable && one.end === Number(end) - 1);
}

/** A system with some core ends out of their terminals, and which. */
interface Cut {
  readonly system: System;
  readonly key: string;
}

const cuts = new WeakMap<System, Map<string, Cut>>();

/** What a test disconnects, worked out once for all circuits wired alike. */
function cutFor(system: System, test: ActTest): Cut {
  const { act, part, points, without } = test;
  const own = cuts.get(system) ?? new Map<string, Cut>();
  cuts.set(system, own);
  const asked = `${act === 'part' ? part : points[0]} ${without}`;
  const before = own.get(asked);
  if (before) return before;
  const ends = endsOf(system, test);
  const key = [
    without,
    ...ends.map(({ cable, colour, end }) => `${cable}.${colour}@${end}`),
  ].join();
  // Tests of one lead disconnect the same: one system, so one circuit of each network.
  const alike = [...own.values()].find((cut) => cut.key === key);
  const made = alike ?? {
    key,
    system: ends.reduce((wired, end) => looseCoreEnd(wired, end), system),
  };
  own.set(asked, made);
  return made;
}

/** A circuit with a lead disconnected, solved: boards as they are, or open. */
interface Disconnected {
  closed(): Solution;
  open(): Solution;
}

const known = new WeakMap<Network, Map<string, Disconnected>>();

function disconnected(network: Network, state: State, test: ActTest): Disconnected {
  const own = known.get(network) ?? new Map<string, Disconnected>();
  known.set(network, own);
  const { key, system } = cutFor(network.system, test);
  const before = own.get(key);
  if (before) return before;
  const { without } = test;
  // A fault that calls by itself is not turned down.
  const stays = without === undefined || network.set.has(without);
  const conditions = stays ? state.conditions : new Map([...state.conditions, [without, false]]);
  const isolated = { ...state, conditions };
  const closed = solve(rewireNetwork(network, system), isolated);
  let open: Solution | undefined;
  const made = {
    closed: () => closed,
    open: () => {
      open ??= solve(boardless(closed.network), isolated);
      return open;
    },
  };
  own.set(key, made);
  return made;
}

/**
 * The same circuit with every board, and every input of one, open: ohms through electronics say
 * nothing of it.
 */
export function boardless(network: Network): Network {
  const before = bare.get(network);
  if (before) return before;
  const made = openElements(network, isElectronic);
  bare.set(network, made);
  return made;
}

const isElectronic = (element: Element): boolean =>
  element.kind === 'sensing' || (element.kind === 'load' && element.draws === 'board');

const bare = new WeakMap<Network, Network>();
