import { type Change, changeNetwork } from './change.ts';
import type { Network } from './network.ts';
import { prepare } from './prepared.ts';
import type { Marks, Register } from './register.ts';
import { type Rest, type RestMarks, settleMarks } from './settle.ts';
import type { Solution } from './solve.ts';
import { atRest, type Memory, type State } from './state.ts';

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
  const start = register.marksOf(state);
  const mark = (id: string, value: boolean) => {
    const at = register.conditions.get(id);
    if (at === undefined) throw new RangeError(`${network.id} has no condition ${id}`);
    start[at] = value ? 1 : 0;
  };
  for (const [id, value] of Object.entries(given)) mark(id, value);
  for (const [id, value] of network.set) mark(id, value);
  return settledFrom(network, mode, start).rest;
}

/** Settles from a state. */
function settledFrom(
  network: Network,
  mode: string,
  start: Marks,
): { rest: Settled; marks: Marks } {
  const { register } = prepare(network);
  const rest = settleMarks(network, start);
  return { rest: new Resting(register, mode, rest), marks: rest.state };
}

/** Settles under conditions from where `from` leaves windings, positions and fuses. */
function settleUnder(
  network: Network,
  mode: string,
  given: Readonly<Record<string, boolean>>,
  from: Marks,
): { rest: Settled; marks: Marks } {
  const start = from.slice();
  start.set(conditionMarks(network, given));
  return settledFrom(network, mode, start);
}

/** By what a mode gives: the mark of every condition. */
const conditions = new WeakMap<Register, WeakMap<object, Marks>>();

/** @throws RangeError for a condition that no item has. */
function conditionMarks(network: Network, given: Readonly<Record<string, boolean>>): Marks {
  const { register } = prepare(network);
  const own = conditions.get(register) ?? new WeakMap<object, Marks>();
  // What a fault has set is this network's own.
  const known = network.set.size === 0 ? own.get(given) : undefined;
  if (known) return known;
  const marks = register.usual.slice();
  for (const name of Object.keys(given)) {
    const at = register.conditions.get(name);
    if (at === undefined)
      throw new RangeError(
        `${network.id} has no condition ${name}; it has ${[...register.conditions.keys()].join(', ')}`,
      );
    marks[at] = given[name] ? 1 : 0;
  }
  for (const [name, value] of network.set) marks[register.conditions.get(name)!] = value ? 1 : 0;
  if (network.set.size > 0) return marks;
  own.set(given, marks);
  conditions.set(register, own);
  return marks;
}

/** A network at rest, read only as far as somebody asks: most are asked for an outcome or two. */
class Resting implements Settled {
  readonly mode: string;
  readonly solution: Solution;
  readonly hunting: readonly string[];
  readonly #state: View;
  readonly #round: readonly View[];
  #outcomes: ReadonlyMap<string, Seen> | undefined;

  constructor(register: Register, mode: string, { state, solution, round, hunting }: RestMarks) {
    this.mode = mode;
    this.solution = solution;
    this.hunting = hunting;
    this.#state = viewOf(register, state);
    this.#round = round.map((marks) => viewOf(register, marks));
  }

  get state(): State {
    return this.#state.state;
  }

  get round(): readonly State[] {
    return this.#round.map((view) => view.state);
  }

  get outcomes(): ReadonlyMap<string, Seen> {
    this.#outcomes ??= this.#round.length === 1 ? this.#state.outcomes : seenOver(this.#round);
    return this.#outcomes;
  }
}

/** Views kept of a register: thousands of circuits of the same items rest in a few hundred states. */
const MOST_VIEWS = 4096;

const views = new WeakMap<Register, Map<string, View>>();

/** A state as everybody else reads it, with what is seen in it. */
class View {
  readonly #register: Register;
  readonly #marks: Marks;
  #state: State | undefined;
  #outcomes: ReadonlyMap<string, boolean> | undefined;

  constructor(register: Register, marks: Marks) {
    this.#register = register;
    this.#marks = marks;
  }

  get state(): State {
    this.#state ??= this.#register.stateOf(this.#marks, this.#register.conditionsIn(this.#marks));
    return this.#state;
  }

  get outcomes(): ReadonlyMap<string, boolean> {
    if (this.#outcomes) return this.#outcomes;
    const outcomes = new Map<string, boolean>();
    for (const { id, when } of this.#register.outcomes) outcomes.set(id, when(this.#marks));
    this.#outcomes = outcomes;
    return outcomes;
  }
}

function viewOf(register: Register, marks: Marks): View {
  const key: string = Reflect.apply(String.fromCharCode, null, marks);
  const own = views.get(register) ?? new Map<string, View>();
  const known = own.get(key);
  if (known) return known;
  if (own.size >= MOST_VIEWS) own.clear();
  const made = new View(register, marks);
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
