import { type Change, changeNetwork } from './change.ts';
import type { Network } from './network.ts';
import { prepare } from './prepared.ts';
import type { Marks, Register } from './register.ts';
import { type Rest, settleMarks } from './settle.ts';
import { atRest, conditionsOf, type Memory, type State } from './state.ts';

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
  const start = marksFrom(network, memory);
  const settled = new Map<string, Settled>();
  const rests = new Map<string, Marks>();
  const visit = (id: string): Marks => {
    const known = rests.get(id);
    if (known) return known;
    const mode = modes[id];
    if (!mode)
      throw new RangeError(
        `${network.id} has no mode ${id}; it has ${Object.keys(modes).join(', ')}`,
      );
    const before = mode.after === undefined ? start : visit(mode.after);
    const { rest, marks } = settleUnder(network, id, mode.conditions, before);
    settled.set(id, rest);
    rests.set(id, marks);
    return marks;
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
  return settleUnder(network, mode, conditions, marksFrom(network, memory)).rest;
}

const starts = new WeakMap<Register, WeakMap<Memory, Marks>>();

/** A memory as marks: thousands of sets of conditions are settled from the same few. */
function marksFrom(network: Network, memory: Memory): Marks {
  const { register } = prepare(network);
  const own = starts.get(register) ?? new WeakMap<Memory, Marks>();
  starts.set(register, own);
  const marks = own.get(memory) ?? register.marksOf({ ...memory, conditions: NONE });
  own.set(memory, marks);
  return marks;
}

const NONE: ReadonlyMap<string, boolean> = new Map();

/**
 * Does something to a network that stands settled, there and then: what was in a place stays in
 * it until the changed circuit moves it. An item taken out, a core parted, a bridge laid, a fault
 * that comes about in this moment: each is a few microseconds where nothing moves.
 *
 * Readings of what comes of it: `read`, `readClass`, `resistanceBetween` of its solution.
 *
 * @param changes see `Change`; made in the order given.
 * @param given conditions that are then other than they were.
 * @throws RangeError for a change that does not fit, or a condition that is not there.
 */
export function alter(
  { solution, state, mode }: Settled,
  changes: readonly Change[],
  given: Readonly<Record<string, boolean>> = {},
): Settled {
  const network = changeNetwork(solution.network, changes);
  const { register } = prepare(network);
  const values = new Map(state.conditions);
  for (const [id, value] of Object.entries(given)) {
    if (!values.has(id)) throw new RangeError(`${network.id} has no condition ${id}`);
    values.set(id, value);
  }
  for (const [id, value] of network.set) values.set(id, value);
  const start = register.marksOf({ ...state, conditions: values });
  return settledFrom(network, mode, start, values).rest;
}

/** Settles from a state; `conditions` are those marked in it. */
function settledFrom(
  network: Network,
  mode: string,
  start: Marks,
  conditions: ReadonlyMap<string, boolean>,
): { rest: Settled; marks: Marks } {
  const { register } = prepare(network);
  const { state, solution, round, hunting } = settleMarks(network, start);
  const views = round.map((marks) => viewOf(register, marks, conditions));
  const rest = {
    state: viewOf(register, state, conditions).state,
    solution,
    round: views.map((view) => view.state),
    hunting,
    mode,
    outcomes: views.length === 1 ? views[0]!.outcomes : seenOver(views),
  };
  return { rest, marks: state };
}

/** Settles under conditions from where `from` leaves windings, positions and fuses. */
function settleUnder(
  network: Network,
  mode: string,
  given: Readonly<Record<string, boolean>>,
  from: Marks,
): { rest: Settled; marks: Marks } {
  const { values, marks } = conditionsFor(network, prepare(network).register, given);
  const start = from.slice();
  start.set(marks);
  return settledFrom(network, mode, start, values);
}

interface Conditions {
  readonly values: ReadonlyMap<string, boolean>;
  readonly marks: Marks;
}

/** By what a mode gives: every condition's value, and its mark. */
const conditions = new WeakMap<Register, WeakMap<object, Conditions>>();

function conditionsFor(
  network: Network,
  register: Register,
  given: Readonly<Record<string, boolean>>,
): Conditions {
  const own = conditions.get(register) ?? new WeakMap<object, Conditions>();
  // What a fault has set is this network's own.
  const known = network.set.size === 0 ? own.get(given) : undefined;
  if (known) return known;
  const values = conditionsOf(network, given);
  const marks = new Uint8Array(register.conditions.size);
  for (const [id, at] of register.conditions) if (values.get(id)) marks[at] = 1;
  const made = { values, marks };
  if (network.set.size > 0) return made;
  own.set(given, made);
  conditions.set(register, own);
  return made;
}

/** A state as everybody else reads it, with what is seen in it. */
interface View {
  readonly state: State;
  readonly outcomes: ReadonlyMap<string, boolean>;
}

/** Views kept of a register: thousands of circuits of the same items rest in a few hundred states. */
const MOST_VIEWS = 4096;

const views = new WeakMap<Register, Map<string, View>>();

function viewOf(register: Register, marks: Marks, conditions: ReadonlyMap<string, boolean>): View {
  const key: string = Reflect.apply(String.fromCharCode, null, marks);
  const own = views.get(register) ?? new Map<string, View>();
  const known = own.get(key);
  if (known) return known;
  if (own.size >= MOST_VIEWS) own.clear();
  const outcomes = new Map<string, boolean>();
  for (const { id, when } of register.outcomes) outcomes.set(id, when(marks));
  const made = { state: register.stateOf(marks, conditions), outcomes };
  own.set(key, made);
  views.set(register, own);
  return made;
}

/** What is seen while a network goes through a round of states. */
function seenOver(round: readonly View[]): Map<string, Seen> {
  const outcomes = new Map<string, Seen>();
  for (const [id, first] of round[0]!.outcomes) {
    outcomes.set(id, round.every((view) => view.outcomes.get(id) === first) ? first : 'hunting');
  }
  return outcomes;
}
