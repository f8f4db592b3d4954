import type { Device, Element, System, Terminal } from '../../schemas/index.ts';
import type { ColourCode } from '../published/index.ts';
import type { Topology } from './topology.ts';

/** A point of one potential: a terminal, a node inside a device, or the end of a spare core. */
export interface CircuitNode {
  readonly index: number;
  /** `A1.call feed` for a terminal, `A1#board` inside a device, `W2.GY@1` a spare core's end. */
  readonly id: string;
  /** The item it belongs to; absent for a spare core's end. */
  readonly item?: string;
  /** Terminal or node name inside the item. */
  readonly name: string;
  /** What the device says of it; absent where no probe reaches. */
  readonly terminal?: Terminal;
}

/** What joins two nodes. `from` and `to` are node indexes, −1 the supply's star point. */
interface BranchBase {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  /**
   * Condition, as in `B1.fitted`, without which the branch is not there: it lies in a device
   * that comes off its base and leaves bare terminals.
   */
  readonly presence?: string;
  /** What a burnt joint or contact adds in series, ohms. */
  readonly seriesOhms?: number;
}

/** An element inside an item. */
export interface ElementBranch extends BranchBase {
  readonly kind: 'element';
  readonly item: string;
  /** Element name inside the device. */
  readonly name: string;
  /** As the device says, with this item's ratings. */
  readonly element: Exclude<Element, { kind: 'mains' }>;
  /** Takes its current and does not do its work: seized, or weak. */
  readonly idle?: boolean;
}

/** One core of a cable from terminal to terminal. */
export interface ConductorBranch extends BranchBase {
  readonly kind: 'conductor';
  readonly cable: string;
  readonly colour: ColourCode;
  readonly ohms: number;
  readonly sleeve?: ColourCode;
}

/** A wire link between two terminals of one item. */
export interface WireLinkBranch extends BranchBase {
  readonly kind: 'wire link';
  readonly item: string;
  readonly ohms: number;
  readonly why?: string;
}

/** Capacitance and leakage between cores, to the surroundings, across a terminal's insulation. */
export interface StrayBranch extends BranchBase {
  readonly kind: 'stray';
  /** The cable between or about whose cores it lies; absent for a terminal's insulation. */
  readonly cable?: string;
  readonly farads: number;
  readonly siemens: number;
}

/** The supply's own impedance, with its electromotive force where it has one. */
export interface SupplyBranch extends BranchBase {
  readonly kind: 'supply';
  readonly item: string;
  readonly ohms: number;
  /** RMS volts driving current from `to` out of `from`. */
  readonly volts: number;
}

/** A branch that no longer is what it was: come apart, welded, short-circuited. */
export interface FaultyBranch extends BranchBase {
  readonly kind: 'faulty';
  readonly ohms: number;
  readonly was: ElementBranch | ConductorBranch | WireLinkBranch;
}

/** A path that should not be there: a short circuit, a leak, a bridge somebody left. */
export interface StrangePathBranch extends BranchBase {
  readonly kind: 'strange path';
  readonly ohms: number;
}

export type Branch =
  | ElementBranch
  | ConductorBranch
  | WireLinkBranch
  | StrayBranch
  | SupplyBranch
  | FaultyBranch
  | StrangePathBranch;

/** One item of the system with its device. */
export interface Item {
  readonly reference: string;
  readonly title: string;
  readonly place: string;
  readonly deviceId: string;
  readonly device: Device;
  /** What each numbered terminal serves here. */
  readonly labels: Readonly<Record<string, string>>;
}

/** What of the surroundings the model takes in; the defaults are what the pages use. */
export interface BuildOptions {
  /** Capacitance between two cores of one cable, farads per metre. */
  readonly coreCapacitance?: number;
  /** Capacitance of a core to its surroundings, farads per metre. */
  readonly surroundingsCapacitance?: number;
  /** Supply voltage, line to neutral, volts RMS. */
  readonly supplyVolts?: number;
}

/** How often a branch is looked for before an index of all is worth its making. */
const LOOKED_FOR = 3;

/**
 * Place of each branch by its id. Most circuits are never asked, and many but once or twice: the
 * first few are looked for, and an index is made for those that are asked again.
 */
export class BranchIndex {
  readonly #branches: readonly Branch[];
  #asked = 0;
  #places: ReadonlyMap<string, number> | undefined;

  constructor(branches: readonly Branch[]) {
    this.#branches = branches;
  }

  get(id: string): number | undefined {
    if (this.#asked < LOOKED_FOR) {
      this.#asked++;
      const at = this.#branches.findLastIndex((branch) => branch.id === id);
      return at < 0 ? undefined : at;
    }
    this.#places ??= new Map(this.#branches.map((branch, i) => [branch.id, i]));
    return this.#places.get(id);
  }
}

/** A system as nodes and branches: the engine's only input. */
export interface Network {
  readonly id: string;
  /** What it was built with. */
  readonly options: BuildOptions;
  readonly system: System;
  readonly items: ReadonlyMap<string, Item>;
  readonly nodes: readonly CircuitNode[];
  readonly branches: readonly Branch[];
  readonly topology: Topology;
  readonly nodeIndex: ReadonlyMap<string, number>;
  readonly branchIndex: BranchIndex;
  /** Position each stuck mechanism is stuck at, by item. */
  readonly stuck: ReadonlyMap<string, string>;
  /** Conditions that stand so whatever a mode sets, as in `B1.battery flat`. */
  readonly set: ReadonlyMap<string, boolean>;
}

/**
 * The node of a terminal or internal point.
 * @throws RangeError that names the nearest item's terminals when there is none.
 */
export function nodeOf(network: Network, id: string): CircuitNode {
  const index = network.nodeIndex.get(id);
  if (index !== undefined) return network.nodes[index]!;
  const item = id.split(/[.#]/)[0];
  const known = network.nodes.filter((n) => n.item === item).map((n) => n.id);
  throw new RangeError(
    `${network.id} has no point ${id}; ${
      known.length > 0 ? `${item} has ${known.join(', ')}` : 'no such item either'
    }`,
  );
}
