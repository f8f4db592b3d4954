import type { Network } from './network.ts';
import { holds } from './rules.ts';
import { type Rest, settle } from './settle.ts';
import { atRest, conditionsOf, type Memory } from './state.ts';

/** What a person sees of an outcome; `hunting` when it comes and goes. */
export type Seen = boolean | 'hunting';

/** A network at rest in one mode. */
export interface Settled extends Rest {
  readonly mode: string;
  /** Every outcome, by ITEM.outcome. */
  readonly outcomes: ReadonlyMap<string, Seen>;
}

/** A network in all its modes. */
export interface Simulation {
  readonly network: Network;
  /** By mode id, in the author's order. */
  readonly modes: ReadonlyMap<string, Settled>;
  /** What every mode starts from that does not come after another. */
  readonly memory: Memory;
}

/**
 * Brings a network to rest in each of its modes. A mode that comes `after` another starts
 * from the other's positions, energised windings and blown fuses; any other starts from
 * `memory`, which is equipment as new unless given.
 */
export function simulate(network: Network, memory: Memory = atRest(network)): Simulation {
  const { modes } = network.system;
  const settled = new Map<string, Settled>();
  const visit = (id: string): Settled => {
    const known = settled.get(id);
    if (known) return known;
    const mode = modes[id];
    if (!mode)
      throw new RangeError(
        `${network.id} has no mode ${id}; it has ${Object.keys(modes).join(', ')}`,
      );
    const before = mode.after === undefined ? memory : visit(mode.after).state;
    const made = settleMode(network, id, mode.conditions, before);
    settled.set(id, made);
    return made;
  };
  const ids = Object.keys(modes);
  ids.forEach(visit);
  return { network, modes: new Map(ids.map((id) => [id, settled.get(id)!])), memory };
}

/**
 * A network in all its modes as an engineer finds it: a fuse that any mode blows has blown
 * before the call-out, and is blown in every mode.
 */
export function simulateAsFound(network: Network): Simulation {
  let memory = atRest(network);
  for (;;) {
    const simulation = simulate(network, memory);
    const blown = new Set([...simulation.modes.values()].flatMap((s) => [...s.state.blown]));
    if (blown.size === memory.blown.size) return simulation;
    memory = { ...memory, blown };
  }
}

/** Brings a network to rest under conditions that are not those of a named mode. */
export function settleMode(
  network: Network,
  mode: string,
  conditions: Readonly<Record<string, boolean>>,
  memory: Memory = atRest(network),
): Settled {
  const rest = settle(network, conditionsOf(network, conditions), memory);
  return { ...rest, mode, outcomes: outcomesOf(network, rest) };
}

function outcomesOf(network: Network, rest: Rest): Map<string, Seen> {
  const outcomes = new Map<string, Seen>();
  for (const [item, { device }] of network.items) {
    for (const [name, outcome] of Object.entries(device.outcomes)) {
      const views = new Set(rest.round.map((state) => holds(outcome.when, item, state)));
      outcomes.set(`${item}.${name}`, views.size > 1 ? 'hunting' : views.has(true));
    }
  }
  return outcomes;
}
