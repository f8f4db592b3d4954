import {
  holds,
  INSTRUMENTS,
  type Network,
  type ReadingClass,
  read,
  type Settled,
  type Simulation,
} from '../circuit/index.ts';

/** In which modes each part of a drawing is in which state. Mode ids in the author's order. */
export interface States {
  readonly modes: readonly string[];
  /** Modes in which a point reads live (or above live) to the supply's earth. */
  live(node: string): readonly string[];
  /** Modes in which a point reads neither live nor dead. */
  between(node: string): readonly string[];
  /** Modes in which a contact, fuse or breaker is closed; by branch id, as in `Q1/fuse`. */
  closed(branch: string): readonly string[];
  /** Modes in which a load, motor, input or source works. */
  on(branch: string): readonly string[];
}

/** The terminal that is the earth of the first supply; undefined where no mains comes in. */
export function supplyEarth(network: Network): string | undefined {
  for (const [item, { device }] of network.items) {
    for (const element of Object.values(device.elements)) {
      if (element.kind !== 'mains') continue;
      const terminal = `${item}.${element.earth}`;
      return network.nodeIndex.has(terminal) ? terminal : `${item}#${element.earth}`;
    }
  }
  return undefined;
}

/**
 * Reads every point of a settled system to the supply's earth on the two-pole tester, and
 * what its contacts and loads do, in each mode or in those given.
 */
export function statesOf(simulation: Simulation, only?: readonly string[]): States {
  const { network } = simulation;
  const modes = [...simulation.modes].filter(([id]) => only?.includes(id) ?? true);
  const earth = supplyEarth(network);
  const classes = new Map<string, ReadonlyMap<string, ReadingClass>>();
  for (const [mode, settled] of modes) classes.set(mode, classesIn(settled, earth));

  const where = (holdsIn: (mode: string, settled: Settled) => boolean) =>
    modes.filter(([id, settled]) => holdsIn(id, settled)).map(([id]) => id);
  const classOf = (mode: string, node: string) => classes.get(mode)?.get(node) ?? 'dead';
  const branchOf = (id: string) => network.branches[network.branchIndex.get(id) ?? -1];
  return {
    modes: modes.map(([id]) => id),
    live: (node) =>
      where((mode) => classOf(mode, node) === 'live' || classOf(mode, node) === 'high'),
    between: (node) => where((mode) => classOf(mode, node) === 'between'),
    closed: (id) => where((_, { state }) => !state.blown.has(id) && isClosed(id, state)),
    on: (id) => where((_, { state }) => isOn(id, state)),
  };

  function isClosed(id: string, state: Settled['state']): boolean {
    const branch = branchOf(id);
    if (branch?.kind !== 'element') return true;
    const { element, item } = branch;
    return element.kind !== 'contact' || holds(element.closed, item, state);
  }

  function isOn(id: string, state: Settled['state']): boolean {
    const branch = branchOf(id);
    if (branch?.kind !== 'element' || branch.element.kind !== 'source') {
      return state.energised.has(id);
    }
    const { poweredBy } = branch.element;
    return poweredBy === undefined || state.energised.has(`${branch.item}/${poweredBy}`);
  }
}

function classesIn(settled: Settled, earth: string | undefined): Map<string, ReadingClass> {
  const classes = new Map<string, ReadingClass>();
  if (earth === undefined) return classes;
  const tester = INSTRUMENTS[0]!;
  for (const { id } of settled.solution.network.nodes) {
    classes.set(id, read(settled.solution, id, earth, tester).class);
  }
  return classes;
}
