import { ISOLATED } from '../../../../schemas/index.ts';
import {
  type Branch,
  type CircuitNode,
  CLASS_LIMITS,
  INSTRUMENTS,
  isLooseEnd,
  magnitude,
  type Network,
  nodeOf,
  read,
  type Settled,
  type Simulation,
  voltage,
} from '../../../circuit/index.ts';
import { JOIN_OHMS, waysFrom } from '../../reach.ts';

/** A circuit as found beside the one its entry intends, each in all modes. */
export interface Circuits {
  readonly found: Simulation;
  readonly intended: Simulation;
  /** The supply's own earth, against which everything is judged. */
  readonly earth: string;
}

const TESTER = INSTRUMENTS[0]!;

/** The point at which the supply's earth arrives; null where a network has no supply. */
export function supplyEnd({ branches, nodes }: Network, part: 'earth' | 'neutral'): string | null {
  const branch = branches.find((b) => b.kind === 'supply' && b.id.endsWith(part));
  return branch ? nodes[branch.from]!.id : null;
}

/** Terminals that carry one of some things. */
export const terminals = ({ nodes }: Network, carries: readonly string[]): CircuitNode[] =>
  nodes.filter((n) => n.terminal && carries.includes(n.terminal.carries));

/**
 * Volts RMS from a point to the supply's earth, on the two-pole tester. A voltage below a
 * limit before the tester's load is laid on it is given as it stands: a load on a passive
 * circuit never raises it. None at a point that this circuit does not have, since another
 * device stands in it: the two circuits a replacement compares differ so.
 */
export function voltsToEarth(
  settled: Settled,
  point: string,
  earth: string,
  limit: number,
): number {
  const { network, ac } = settled.solution;
  if (!network.nodeIndex.has(point)) return 0;
  const [a, b] = [nodeOf(network, point).index, nodeOf(network, earth).index];
  const open = magnitude(voltage(ac, a, b));
  return open < limit ? open : read(settled.solution, point, earth, TESTER).ac;
}

/** Whether a point is live on the two-pole tester to earth, and not merely floating. */
export const isLive = (settled: Settled, point: string, earth: string): boolean =>
  voltsToEarth(settled, point, earth, CLASS_LIMITS.live) >= CLASS_LIMITS.live;

/** Modes with the supply on. */
export const energisedModes = ({ modes }: Simulation): Settled[] =>
  [...modes.values()].filter(({ mode }) => mode !== ISOLATED);

/** Modes with the supply on in which nothing has blown that would not have in the intended circuit. */
export const steadyModes = ({ found, intended }: Circuits): [now: Settled, due: Settled][] =>
  energisedModes(found).flatMap((now): [Settled, Settled][] => {
    const due = intended.modes.get(now.mode);
    return due && now.state.blown.size <= due.state.blown.size ? [[now, due]] : [];
  });

/**
 * Whether two points are joined by conductors, closed contacts and links, not by way of the
 * supply nor of a branch left out.
 */
export function areJoined(settled: Settled, from: string, to: string, except?: string): boolean {
  const { network } = settled.solution;
  if (!network.nodeIndex.has(from) || !network.nodeIndex.has(to)) return false;
  const [start, end] = [nodeOf(network, from).index, nodeOf(network, to).index];
  if (except !== undefined) return reachedFrom(settled, start, except).has(end);
  const known = joined.get(settled) ?? new Map<number, ReadonlySet<number>>();
  joined.set(settled, known);
  const group = known.get(end) ?? known.get(start);
  if (group) return group.has(start) && group.has(end);
  const found = reachedFrom(settled, end);
  for (const node of found) known.set(node, found);
  return found.has(start);
}

/** What each node of a state is joined to, of those that were asked for. */
const joined = new WeakMap<Settled, Map<number, ReadonlySet<number>>>();

/** Nodes that a node is joined to, itself among them. */
function reachedFrom({ solution }: Settled, node: number, except?: string): Set<number> {
  const { network, parts } = solution;
  const passes = (b: Branch, i: number) =>
    b.kind !== 'supply' && b.id !== except && parts[i]!.ohms < JOIN_OHMS;
  return new Set(waysFrom(network, node, passes).keys());
}

/** Loose ends of cores that lie in no terminal. */
export const looseEnds = ({ nodes }: Network): string[] =>
  nodes.map(({ id }) => id).filter(isLooseEnd);
