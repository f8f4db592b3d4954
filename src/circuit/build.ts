import type { Cable, Device, Element, System } from '../../schemas/index.ts';
import {
  CORE_CAPACITANCE_PER_METRE,
  CORE_LEAKAGE_PER_METRE,
  type ColourCode,
  type ConductorClass,
  EXTERNAL_LOOP_OHMS,
  NOMINAL_VOLTS,
  ohmsPerMetre,
} from '../published/index.ts';
import { celsius } from '../units/index.ts';
import {
  LINE_SHARE,
  LINK_OHMS,
  ORIGIN_LINK_OHMS,
  SURROUNDINGS_CAPACITANCE_PER_METRE,
  TERMINAL_LEAKAGE,
} from './constants.ts';
import {
  type Branch,
  BranchIndex,
  type BuildOptions,
  type CircuitNode,
  type ConductorBranch,
  type FaultyBranch,
  type Item,
  type Network,
} from './network.ts';
import { planElimination, REFERENCE, type Topology } from './topology.ts';

/** Conductors are computed as cold copper: what they carry here warms none of them. */
const COPPER = celsius(20);

const CLASS_OF_KIND: Readonly<Record<Cable['kind'], ConductorClass>> = {
  flex: 'flexible',
  'fixed lead': 'flexible',
  'twin and earth': 'solid',
  single: 'solid',
};

/**
 * Turns a valid system and its devices into nodes and branches.
 * @param id the system's entry id.
 * @param devices devices by id, with what they extend merged in.
 * @throws RangeError when the system names a device, terminal or node that is not there;
 *   content that passed the checks never does.
 */
export function buildNetwork(
  id: string,
  system: System,
  devices: ReadonlyMap<string, Device>,
  options: BuildOptions = {},
): Network {
  const items = new Map<string, Item>();
  for (const [reference, item] of Object.entries(system.items)) {
    const device = devices.get(item.device);
    if (!device)
      throw new RangeError(`${id}: ${reference} is a ${item.device}, which is no device`);
    items.set(reference, {
      reference,
      title: item.title ?? device.title,
      place: item.place,
      deviceId: item.device,
      device: withRatings(device, item.ratings),
      labels: item.labels,
    });
  }
  const builder = new Builder(id, system, options, { items, nodes: [], nodeIndex: new Map() });
  for (const item of items.values()) builder.addItem(item);
  for (const [reference, cable] of Object.entries(system.cables))
    builder.addCable(reference, cable);
  for (const [i, link] of system.links.entries()) builder.addLink(i, link.between, link.why);
  return builder.finish();
}

/**
 * The network of the same items, wired as another version of its system says: only the cables
 * that differ are built anew. Nodes keep their places; ends that now lie loose come after them.
 * Changes made to the network stay where its items, links and spare cores do, and loose ends.
 */
export function rewireNetwork(network: Network, system: System): Network {
  const before = network.system;
  const cables = Object.keys(system.cables);
  const changed = cables.filter((name) => system.cables[name] !== before.cables[name]);
  const isAlike =
    system.items === before.items &&
    system.links === before.links &&
    cables.join() === Object.keys(before.cables).join() &&
    changed.every((name) => {
      const [was, is] = [before.cables[name]!, system.cables[name]!];
      const loose = looseEnds(is);
      return was.spare.join() === is.spare.join() && looseEnds(was).every((e) => loose.includes(e));
    });
  if (!isAlike) {
    const devices = new Map([...network.items.values()].map((i) => [i.deviceId, i.device]));
    return buildNetwork(network.id, system, devices, network.options);
  }
  const builder = new Builder(network.id, system, network.options, network);
  const left = new Set(changed);
  for (const branch of network.branches) {
    const cable = cableOf(branch);
    if (cable === undefined || !changed.includes(cable)) builder.keep(branch);
    else {
      if (left.delete(cable)) builder.addCable(cable, system.cables[cable]!);
      if (branch.kind === 'faulty') builder.breakCore(branch);
      if (branch.kind === 'conductor') builder.burnJoint(branch);
    }
  }
  return { ...builder.finish(), stuck: network.stuck, set: network.set };
}

/** The cable that a conductor, sound or not, or a stray belongs to. */
function cableOf(branch: Branch): string | undefined {
  const was = branch.kind === 'faulty' ? branch.was : branch;
  return 'cable' in was ? was.cable : undefined;
}

const looseEnds = ({ cores }: Cable): string[] =>
  Object.values(cores).flatMap(({ ends }) => ends.filter(isLooseEnd));

function withRatings(device: Device, ratings: Readonly<Record<string, number>>): Device {
  if (Object.keys(ratings).length === 0) return device;
  const elements: Record<string, Element> = { ...device.elements };
  for (const [name, rating] of Object.entries(ratings)) {
    const element = elements[name];
    if (element?.kind === 'fuse' || element?.kind === 'breaker') {
      elements[name] = { ...element, rating };
    }
  }
  return { ...device, elements };
}

/** The condition that says that an item's device is in its place; undefined where it never comes off. */
export function presenceOf({ conditions }: Device, item: string): string | undefined {
  const name = Object.keys(conditions).find((one) => conditions[one]!.presence);
  return name && `${item}.${name}`;
}

/**
 * Whether a core's end lies loose, joined to nothing. Entries never say so; a circuit as
 * found may: `W2.BN@1` is the first end of core BN of W2.
 */
export const isLooseEnd = (id: string): boolean => id.includes('@');

class Builder {
  readonly #id: string;
  readonly #system: System;
  readonly #options: BuildOptions;
  readonly #coreCapacitance: number;
  readonly #surroundings: number;
  readonly #supplyVolts: number;
  readonly #items: ReadonlyMap<string, Item>;
  readonly #nodes: CircuitNode[];
  readonly #nodeIndex: Map<string, number>;
  readonly #branches: Branch[] = [];
  readonly #like: Topology | undefined;

  /** @param network items, nodes as far as they are there already, and how those are eliminated. */
  constructor(
    id: string,
    system: System,
    options: BuildOptions,
    network: Pick<Network, 'items' | 'nodes' | 'nodeIndex'> & { readonly topology?: Topology },
  ) {
    this.#id = id;
    this.#system = system;
    this.#options = options;
    this.#items = network.items;
    this.#like = network.topology;
    this.#nodes = [...network.nodes];
    this.#nodeIndex = new Map(network.nodeIndex);
    this.#coreCapacitance = options.coreCapacitance ?? CORE_CAPACITANCE_PER_METRE;
    this.#surroundings = options.surroundingsCapacitance ?? SURROUNDINGS_CAPACITANCE_PER_METRE;
    this.#supplyVolts = options.supplyVolts ?? NOMINAL_VOLTS;
  }

  addItem({ reference, device }: Item): void {
    for (const [name, terminal] of Object.entries(device.terminals)) {
      this.#addNode({ id: `${reference}.${name}`, item: reference, name, terminal });
    }
    for (const name of device.nodes)
      this.#addNode({ id: `${reference}#${name}`, item: reference, name });
    for (const [name, element] of Object.entries(device.elements)) {
      this.#addElement(reference, name, element);
    }
  }

  keep(branch: Branch): void {
    this.#branches.push(branch);
  }

  /** Breaks a core of a cable made anew as it was broken. */
  breakCore({ id, ohms }: FaultyBranch): void {
    const at = this.#branches.findIndex((branch) => branch.id === id);
    const was = this.#branches[at];
    if (was?.kind !== 'conductor') return;
    const { from, to } = was;
    this.#branches[at] = { kind: 'faulty', id, from, to, ohms, was };
  }

  /** Leaves a burnt joint in a core of a cable made anew. */
  burnJoint({ id, seriesOhms }: ConductorBranch): void {
    if (seriesOhms === undefined) return;
    const at = this.#branches.findIndex((branch) => branch.id === id);
    const was = this.#branches[at];
    if (was?.kind === 'conductor') this.#branches[at] = { ...was, seriesOhms };
  }

  addCable(reference: string, cable: Cable): void {
    const cores = Object.entries(cable.cores) as [
      ColourCode,
      NonNullable<(typeof cable.cores)[ColourCode]>,
    ][];
    const ends: [colour: ColourCode, from: number, to: number][] = [];
    for (const [colour, core] of cores) {
      const [from, to] = core.ends;
      ends.push([colour, this.#node(from), this.#node(to)]);
    }
    for (const colour of cable.spare) {
      const end = (n: 1 | 2) => this.#looseEnd(`${reference}.${colour}@${n}`, colour);
      ends.push([colour, end(1), end(2)]);
    }
    for (const [colour, from, to] of ends) {
      const size = colour === 'GNYE' ? (cable.earthSize ?? cable.size) : cable.size;
      const sleeve = cable.cores[colour]?.sleeve;
      this.#branches.push({
        kind: 'conductor',
        id: `${reference}.${colour}`,
        from,
        to,
        cable: reference,
        colour,
        ohms: ohmsPerMetre(CLASS_OF_KIND[cable.kind], size, COPPER) * cable.length,
        ...(sleeve ? { sleeve } : {}),
      });
    }
    this.#addCableStrays(reference, cable, ends);
  }

  addLink(index: number, [a, b]: readonly [string, string], why: string | undefined): void {
    const from = this.#node(a);
    this.#branches.push({
      kind: 'wire link',
      id: `link ${index + 1}`,
      from,
      to: this.#node(b),
      item: this.#nodes[from]!.item!,
      ohms: LINK_OHMS,
      ...(why ? { why } : {}),
    });
  }

  finish(): Network {
    const branches = this.#branches;
    return {
      id: this.#id,
      options: this.#options,
      system: this.#system,
      items: this.#items,
      nodes: this.#nodes,
      branches,
      topology: planElimination(this.#nodes.length, branches, this.#like),
      nodeIndex: this.#nodeIndex,
      branchIndex: new BranchIndex(branches),
      stuck: new Map(),
      set: new Map(),
    };
  }

  #node(id: string): number {
    if (isLooseEnd(id)) return this.#looseEnd(id, id.slice(id.indexOf('.') + 1));
    const index = this.#nodeIndex.get(id);
    if (index === undefined) throw new RangeError(`${this.#id} has no terminal ${id}`);
    return index;
  }

  /** The end of a core that is joined to nothing; there already where its cable is made anew. */
  #looseEnd(id: string, name: string): number {
    return this.#nodeIndex.get(id) ?? this.#addNode({ id, name });
  }

  #addNode(node: Omit<CircuitNode, 'index'>): number {
    const index = this.#nodes.length;
    this.#nodes.push({ index, ...node });
    this.#nodeIndex.set(node.id, index);
    this.#stray(`${node.id} insulation`, index, REFERENCE, 0, TERMINAL_LEAKAGE);
    return index;
  }

  #addElement(item: string, name: string, element: Element): void {
    const presence = presenceOf(this.#items.get(item)!.device, item);
    const end = (local: string) =>
      this.#nodeIndex.get(`${item}.${local}`) ?? this.#node(`${item}#${local}`);
    if (element.kind !== 'mains') {
      const [a, b] = element.between;
      this.#branches.push({
        kind: 'element',
        id: `${item}/${name}`,
        from: end(a),
        to: end(b),
        item,
        name,
        element,
        ...(presence ? { presence } : {}),
      });
      return;
    }
    const loop = EXTERNAL_LOOP_OHMS[element.earthing];
    const line = EXTERNAL_LOOP_OHMS['TN-C-S'] * LINE_SHARE;
    const lineNode = end(element.line);
    const neutral = end(element.neutral);
    const earth = end(element.earth);
    this.#supply(item, 'line', lineNode, REFERENCE, line, this.#supplyVolts);
    this.#supply(item, 'neutral', neutral, REFERENCE, line, 0);
    if (element.earthing === 'TN-C-S')
      this.#supply(item, 'earth', earth, neutral, ORIGIN_LINK_OHMS, 0);
    else this.#supply(item, 'earth', earth, REFERENCE, loop - line, 0);
  }

  #supply(item: string, part: string, from: number, to: number, ohms: number, volts: number): void {
    this.#branches.push({
      kind: 'supply',
      id: `${item}/supply ${part}`,
      from,
      to,
      item,
      ohms,
      volts,
    });
  }

  /** Half of a cable's capacitance and leakage stands at each of its ends. */
  #addCableStrays(
    reference: string,
    cable: Cable,
    cores: readonly [colour: ColourCode, from: number, to: number][],
  ): void {
    const half = cable.length / 2;
    const surroundings = this.#surroundings * half;
    for (const [i, [colour, from, to]] of cores.entries()) {
      const core = `${reference}.${colour}`;
      this.#stray(`${core} surroundings 1`, from, REFERENCE, surroundings, 0, reference);
      this.#stray(`${core} surroundings 2`, to, REFERENCE, surroundings, 0, reference);
      if (cable.kind === 'single') continue;
      for (const [other, otherFrom, otherTo] of cores.slice(i + 1)) {
        const farads = this.#coreCapacitance * half;
        const siemens = CORE_LEAKAGE_PER_METRE * half;
        const pair = `${core}-${other}`;
        this.#stray(`${pair} 1`, from, otherFrom, farads, siemens, reference);
        this.#stray(`${pair} 2`, to, otherTo, farads, siemens, reference);
      }
    }
  }

  #stray(
    id: string,
    from: number,
    to: number,
    farads: number,
    siemens: number,
    cable?: string,
  ): void {
    // Two cores in one terminal have nothing between them.
    if (from === to) return;
    const stray = { kind: 'stray' as const, id, from, to, farads, siemens };
    this.#branches.push(cable === undefined ? stray : { ...stray, cable });
  }
}
