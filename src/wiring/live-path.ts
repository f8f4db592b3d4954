import {
  type Branch,
  type ElementBranch,
  effectiveVolts,
  magnitude,
  type Network,
  potential,
  type Settled,
  type Simulation,
  voltage,
} from '../circuit/index.ts';
import { JOIN_OHMS, waysFrom } from './reach.ts';
import { againstFor } from './wiring-table.ts';

/** A terminal on the way from the supply to a load and back. */
export interface Hop {
  /** `E1.call feed`. */
  readonly point: string;
  /** What lies between the previous hop and this one, in order; empty at the first. */
  readonly via: readonly Branch[];
  /** Before the load, or after it on the way back. */
  readonly side: 'out' | 'back';
  /** Point it is read against; null where there is none. */
  readonly against: string | null;
}

/** The thread an engineer follows: from the supply to one load and back. */
export interface LivePath {
  /** `E1/burner`. */
  readonly id: string;
  readonly load: ElementBranch;
  /** As a heading says it: `E1 fan and gas valve`. */
  readonly title: string;
  /** First mode in which the load works. */
  readonly mode: string;
  /** Whether the mains or an extra-low-voltage source drives it. */
  readonly driven: 'mains' | 'extra-low';
  readonly hops: readonly Hop[];
  /** What lies after the last terminal, inside an item; empty where the path ends at one. */
  readonly closing: readonly Branch[];
}

/** The live path of every load and sensing input that works in some mode. */
export function livePaths(simulation: Simulation): LivePath[] {
  const { network } = simulation;
  return network.branches.flatMap((branch, index) => {
    if (branch.kind !== 'element') return [];
    if (!['load', 'motor', 'sensing'].includes(branch.element.kind)) return [];
    const works = [...simulation.modes.values()].find((s) => s.state.energised.has(branch.id));
    const path = works && pathOf(network, works, branch, index);
    return path ? [path] : [];
  });
}

/**
 * The live path of one load in one mode; null when it does not work in that mode.
 * A winding that is only held counts as working.
 * @param load branch id, as in `E1/burner`.
 */
export function livePathIn(simulation: Simulation, mode: string, load: string): LivePath | null {
  const { network } = simulation;
  const index = network.branchIndex.get(load);
  const branch = index === undefined ? undefined : network.branches[index];
  const settled = simulation.modes.get(mode);
  if (index === undefined || branch?.kind !== 'element' || !settled?.state.held.has(load))
    return null;
  return pathOf(network, settled, branch, index);
}

function pathOf(
  network: Network,
  settled: Settled,
  load: ElementBranch,
  index: number,
): LivePath | null {
  const { solution } = settled;
  const dc = Math.abs(voltage(solution.dc, load.from, load.to).re);
  const driven = dc > effectiveVolts(solution, index) / 2 ? 'extra-low' : 'mains';
  const [lineEnd, backEnd] = orient(settled, load, driven);
  const passes = (b: Branch, i: number) => b !== load && isJoin(b, solution.parts[i]!.ohms);
  const [start, finish] = driven === 'mains' ? mainsEnds(network) : sourceEnds(network, load);
  if (start === null || finish === null) return null;
  const out = waysFrom(network, start, passes).get(lineEnd);
  const back = waysFrom(network, backEnd, passes).get(finish);
  if (!out || !back) return null;
  return {
    id: load.id,
    load,
    title: `${load.item} ${load.element.name ?? load.name}`,
    mode: settled.mode,
    driven,
    ...hopsOf(network, start, [
      ...out.map((b) => ({ branch: b, side: 'out' as const })),
      { branch: load, side: 'back' as const },
      ...back.map((b) => ({ branch: b, side: 'back' as const })),
    ]),
  };
}

/** The load's end nearer the supply's line, and the other. */
function orient(
  settled: Settled,
  load: ElementBranch,
  driven: LivePath['driven'],
): [number, number] {
  const { ac, dc } = settled.solution;
  const height = (node: number) =>
    driven === 'mains' ? magnitude(potential(ac, node)) : potential(dc, node).re;
  return height(load.from) >= height(load.to) ? [load.from, load.to] : [load.to, load.from];
}

/** Whether a branch carries a path on. A resistor in series does, a load does not. */
function isJoin(branch: Branch, ohms: number): boolean {
  if (branch.kind === 'stray' || branch.kind === 'supply') return false;
  if (branch.kind === 'element') {
    if (branch.element.kind === 'source') return false;
    if (branch.element.kind === 'resistor') return true;
  }
  return ohms < JOIN_OHMS;
}

function mainsEnds(network: Network): [number | null, number | null] {
  const supply = (part: string) =>
    network.branches.find((b) => b.kind === 'supply' && b.id.endsWith(part))?.from ?? null;
  return [supply('supply line'), supply('supply neutral')];
}

/** Ends of the extra-low-voltage source in the load's own item, positive first. */
function sourceEnds(network: Network, load: ElementBranch): [number | null, number | null] {
  const sources = network.branches.filter(
    (b) => b.kind === 'element' && b.element.kind === 'source',
  );
  const own = sources.find((b) => b.kind === 'element' && b.item === load.item) ?? sources[0];
  return own ? [own.from, own.to] : [null, null];
}

function hopsOf(
  network: Network,
  start: number,
  steps: readonly { branch: Branch; side: Hop['side'] }[],
): Pick<LivePath, 'hops' | 'closing'> {
  const hops: Hop[] = [];
  let at = start;
  let via: Branch[] = [];
  const land = (side: Hop['side']) => {
    const node = network.nodes[at]!;
    if (!node.terminal) return;
    hops.push({ point: node.id, via, side, against: againstFor(network, node.id) });
    via = [];
  };
  land('out');
  for (const { branch, side } of steps) {
    at = branch.from === at ? branch.to : branch.from;
    via.push(branch);
    land(side);
  }
  return { hops, closing: via };
}
