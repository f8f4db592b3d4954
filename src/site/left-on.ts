import { ISOLATED } from '../../schemas/index.ts';
import { INSTRUMENTS, readClass, type Settled, type Simulation } from '../circuit/index.ts';

/** How a terminal stands to the supply with the isolator off. */
export type LeftOn = 'live' | 'neutral';

/** Resistance below which a branch is a join and above which it is a load or an open, ohms. */
const JOIN_OHMS = 10;

const known = new WeakMap<Simulation, ReadonlyMap<string, LeftOn>>();

/**
 * Terminals that a system's isolator leaves on the supply, read off the circuit as it stands
 * isolated: those that are live then, and neutrals still joined to the supply's.
 */
export function leftOn(simulation: Simulation): ReadonlyMap<string, LeftOn> {
  const before = known.get(simulation);
  if (before) return before;
  const { network, modes } = simulation;
  const isolated = modes.get(ISOLATED);
  const incoming = network.nodes.filter(
    ({ terminal, item }) =>
      terminal && item !== undefined && network.items.get(item)?.device.family === 'supply',
  );
  const earth = incoming.find(({ terminal }) => terminal!.carries === 'earth')?.id;
  const found = new Map<string, LeftOn>();
  if (isolated && earth !== undefined) {
    const neutrals = joinedTo(
      isolated,
      incoming.flatMap(({ terminal, index }) => (terminal!.carries === 'neutral' ? [index] : [])),
    );
    for (const { id, index, terminal } of network.nodes) {
      if (!terminal || terminal.carries === 'earth') continue;
      if (readClass(isolated.solution, id, earth, INSTRUMENTS[0]!) === 'live')
        found.set(id, 'live');
      else if (terminal.carries === 'neutral' && neutrals.has(index)) found.set(id, 'neutral');
    }
  }
  known.set(simulation, found);
  return found;
}

/** Nodes that conductors, links and closed contacts join to some. */
function joinedTo({ solution }: Settled, nodes: readonly number[]): ReadonlySet<number> {
  const { network, parts } = solution;
  const joined = new Set(nodes);
  for (const node of joined) {
    for (const [i, { kind, from, to }] of network.branches.entries()) {
      if (kind === 'stray' || kind === 'supply' || parts[i]!.ohms >= JOIN_OHMS) continue;
      if (from === node) joined.add(to);
      if (to === node) joined.add(from);
    }
  }
  return joined;
}
