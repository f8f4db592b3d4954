import {
  type CircuitNode,
  type ConductorBranch,
  INSTRUMENTS,
  type Network,
  type ReadingClass,
  read,
  type Simulation,
} from '../circuit/index.ts';
import type { ColourCode } from '../published/index.ts';
import { mateOf, pointsByItem } from './points.ts';

/** One end of a conductor and what it reads in each mode. */
export interface WiringEnd {
  /** `E1.call feed`. */
  readonly point: string;
  /** What the terminal is for at this item. */
  readonly function: string;
  /** Point it is read against; null for a protective conductor and where there is none. */
  readonly against: string | null;
  /** Class on the two-pole tester by mode; empty when it is read against nothing. */
  readonly classes: Readonly<Record<string, ReadingClass>>;
}

/** One core of one cable. */
export interface WiringRow {
  /** `W2.BN`. */
  readonly id: string;
  readonly cable: string;
  readonly colour: ColourCode;
  /** Marking its ends need, as the entry gives it. */
  readonly sleeve: ColourCode | null;
  readonly function: string;
  readonly from: WiringEnd;
  readonly to: WiringEnd;
}

/** A cable or set of wires with its cores. */
export interface CableRun {
  readonly cable: string;
  readonly kind: string;
  /** Cross-section, mm². */
  readonly size: number;
  /** Length, m. */
  readonly length: number;
  readonly rows: readonly WiringRow[];
  readonly spare: readonly ColourCode[];
}

/** A wire link between two terminals of one item. */
export interface LinkRow {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly why: string | null;
}

/** The wiring of a system, cable by cable. */
export interface WiringTable {
  readonly runs: readonly CableRun[];
  readonly links: readonly LinkRow[];
}

/** Works out the wiring table of a simulated system. */
export function wiringTable(simulation: Simulation): WiringTable {
  const { network } = simulation;
  const conductors = network.branches.filter((b) => b.kind === 'conductor');
  const runs = Object.entries(network.system.cables).map(([cable, data]) => ({
    cable,
    kind: data.kind,
    size: data.size,
    length: data.length,
    spare: data.spare,
    rows: conductors
      .filter((b) => b.cable === cable && !data.spare.includes(b.colour))
      .map((b) => row(simulation, b)),
  }));
  const links = network.branches.flatMap((b) =>
    b.kind === 'wire link'
      ? [{ id: b.id, from: idOf(network, b.from), to: idOf(network, b.to), why: b.why ?? null }]
      : [],
  );
  return { runs, links };
}

const idOf = (network: Network, node: number) => network.nodes[node]!.id;

function row(simulation: Simulation, branch: ConductorBranch): WiringRow {
  const { network } = simulation;
  const from = network.nodes[branch.from]!;
  const to = network.nodes[branch.to]!;
  return {
    id: branch.id,
    cable: branch.cable,
    colour: branch.colour,
    sleeve: branch.sleeve ?? null,
    function: functionOfCore(network, from, to),
    from: end(simulation, from),
    to: end(simulation, to),
  };
}

function end(simulation: Simulation, node: CircuitNode): WiringEnd {
  const { network } = simulation;
  const against = againstFor(network, node.id);
  const classes: Record<string, ReadingClass> = {};
  if (against !== null) {
    for (const [mode, settled] of simulation.modes) {
      classes[mode] = read(settled.solution, node.id, against, INSTRUMENTS[0]!).class;
    }
  }
  return { point: node.id, function: functionOfTerminal(network, node), against, classes };
}

/**
 * Point against which a terminal is read: its neutral, else its earth; a neutral against its
 * earth; one side of an extra-low-voltage pair against the other; null where there is none.
 */
export function againstFor(network: Network, point: string): string | null {
  const points = pointsByItem(network).find((p) =>
    [...p.lines, ...p.neutrals, ...p.earths, ...p.calls].includes(point),
  );
  if (!points || points.earths.includes(point)) return null;
  if (points.calls.includes(point)) return points.calls.find((c) => c !== point) ?? null;
  const earth = mateOf(point, points.earths) ?? null;
  return points.neutrals.includes(point) ? earth : (mateOf(point, points.neutrals) ?? earth);
}

/** What a terminal is for at this item: the label it has here, else its device's word. */
export function functionOfTerminal(network: Network, node: CircuitNode): string {
  const label = node.item ? network.items.get(node.item)?.labels[node.name] : undefined;
  return label ?? node.terminal?.function ?? node.name;
}

/**
 * What a core is for. The end that is not a numbered terminal says it best; where both
 * do, the end nearer the equipment it serves, which stands second in the entry.
 */
function functionOfCore(network: Network, from: CircuitNode, to: CircuitNode): string {
  const numbered = (n: CircuitNode) => /^[0-9]+$/.test(n.name);
  const speaker = numbered(to) && !numbered(from) ? from : to;
  return functionOfTerminal(network, speaker);
}
