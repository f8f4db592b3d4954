import { ISOLATED } from '../../../schemas/index.ts';
import {
  holds,
  type Instrument,
  type Memory,
  type Network,
  type ReadingClass,
  type Rest,
  readClass,
  readVolts,
  resistanceBetween,
  type Seen,
  type Simulation,
  type Solution,
  type Spectrum,
  type State,
  settle,
  simulateAsFound,
  solve,
} from '../../circuit/index.ts';
import { networkIn, placeNamed, type Situation, settledIn, situationIn } from '../../site/index.ts';
import { type Edit, editedCircuit } from '../faults/index.ts';
import type { SettledState } from '../settled-states.ts';
import {
  type ActTest,
  disconnectedAnswer,
  type FuseAnswer,
  isLiveAt,
  leadInsulationAnswer,
  placeInsulationAnswer,
  situationOf,
  type TestAnswer,
  takesOut,
} from '../tests/index.ts';
import type { LruCache } from './lru.ts';

/** A spectrum without sources: it stands in for the kind of current that a reading does not use. */
const SILENT: Spectrum = {
  hertz: 0,
  impedance: () => {
    throw new RangeError('this kind of current has no source, and was not solved');
  },
  potentials: () => null,
};

/** Solutions kept for the next reading: by situation and current, then by the circuit's id. */
export type SolutionCache = LruCache<Map<string, Spectrum>>;

/** The situation in which hands find something out: with leads disconnected no place is open. */
export function situationOfAct(network: Network, test: ActTest): Situation {
  if (test.act === 'link') return situationOf(network, test);
  const isApart = test.act === 'core' || test.act === 'part' || takesOut(test);
  return situationIn(ISOLATED, isApart ? null : placeNamed(network, test.place));
}

/** What a circuit is made from. */
export interface CircuitSource {
  /** Its key in the cache of solutions. */
  readonly id: string;
  readonly sound: Simulation;
  readonly edits: readonly Edit[];
  /** Conditions other than usual, where a mode does not set them itself. */
  readonly conditions?: Readonly<Record<string, boolean>> | undefined;
  /** Its settled states in a situation where the build worked them out; it is simulated otherwise. */
  readonly known?: ((situation: Situation) => SettledState[]) | null;
  /** What a mode starts from, where each is settled by itself; all are simulated otherwise. */
  readonly from?: ((mode: string) => Memory) | null;
  /** Its network where that is made already. */
  readonly network?: Network;
  /** Whether every solution met on the way to rest is kept for its readings. */
  readonly keeps?: boolean;
  readonly solutions: SolutionCache;
}

/**
 * The circuit of one explanation as an engineer finds it, worked out as far as it is asked:
 * its states in the modes wanted, its solution at the frequency wanted.
 */
export class FoundCircuit {
  readonly #id: string;
  readonly #sound: Simulation;
  readonly #edits: readonly Edit[];
  readonly #known: ((situation: Situation) => SettledState[]) | null;
  readonly #from: ((mode: string) => Memory) | null;
  readonly #keeps: boolean;
  readonly #cache: SolutionCache;
  #network: Network | undefined;
  readonly #conditions: Readonly<Record<string, boolean>>;
  #simulation: Simulation | undefined;
  readonly #settledStates = new Map<string, readonly State[]>();
  readonly #solutions = new Map<string, Solution>();

  constructor({
    id,
    sound,
    edits,
    known,
    from,
    network,
    keeps,
    conditions,
    solutions,
  }: CircuitSource) {
    this.#id = id;
    this.#sound = sound;
    this.#edits = edits;
    this.#known = known ?? null;
    this.#from = from ?? null;
    this.#network = network;
    this.#keeps = keeps ?? false;
    this.#conditions = conditions ?? {};
    this.#cache = solutions;
  }

  get network(): Network {
    this.#network ??= editedCircuit(this.#sound.network, this.#edits);
    return this.#network;
  }

  /** The states it goes through at rest in a situation: one, or several when it hunts. */
  round(situation: Situation): readonly State[] {
    const known = this.#settledStates.get(situation.id);
    if (known) return known;
    if (this.#known) {
      const conditions = this.#conditionsIn(situation);
      const round = this.#known(situation).map((rest) => ({ ...rest, conditions }));
      this.#settledStates.set(situation.id, round);
      return round;
    }
    if (this.#from) return this.#settled(situation, this.#from(situation.mode));
    this.#simulation ??= simulateAsFound(this.network);
    for (const [id, rest] of this.#simulation.modes) this.#take(id, rest);
    this.#take(situation.id, settledIn(this.#simulation, situation));
    return this.#settledStates.get(situation.id)!;
  }

  #conditionsIn({ mode, place }: Situation): ReadonlyMap<string, boolean> {
    const { conditions } = this.#sound.modes.get(mode)!.state;
    const own = this.#sound.network.system.modes[mode]!.conditions;
    const others = Object.entries(this.#conditions).filter(([id]) => !(id in own));
    const brought = Object.entries(place?.brings ?? {});
    // What a fault has set stands so whatever a mode or a hand does.
    const { set } = this.network;
    if (others.length + brought.length + set.size === 0) return conditions;
    return new Map([...conditions, ...others, ...brought, ...set]);
  }

  #settled(situation: Situation, memory: Memory): readonly State[] {
    const network = networkIn(this.network, situation);
    const rest = settle(network, this.#conditionsIn(situation), memory);
    this.#take(situation.id, rest);
    return rest.round;
  }

  #take(id: string, { round, solution }: Rest): void {
    this.#settledStates.set(id, round);
    // Where it hunts a reading is of the round's first state, and the solution of another.
    if (this.#keeps && round.length === 1) this.#solutions.set(id, solution);
  }

  seen(situation: Situation, outcome: string): Seen {
    const [item, name] = outcome.split('.') as [string, string];
    const { when } = this.#sound.network.items.get(item)!.device.outcomes[name]!;
    const views = new Set(this.round(situation).map((state) => holds(when, item, state)));
    return views.size > 1 ? 'hunting' : views.has(true);
  }

  /** What hands find out in it; what is only to be seen in a box, no circuit tells. */
  act(test: ActTest): TestAnswer {
    const { network } = this;
    const situation = situationOfAct(this.#sound.network, test);
    switch (test.act) {
      case 'link': {
        const seen = this.seen(situation, test.outcome!);
        return seen === 'hunting' ? 'comes and goes' : seen ? 'seen' : 'not seen';
      }
      case 'core':
      case 'part':
        return disconnectedAnswer(network, this.round(situation)[0]!, test);
      case 'insulation':
        if (takesOut(test)) return leadInsulationAnswer(network, this.round(situation)[0]!, test);
        return placeInsulationAnswer((from, to) => this.ohms(situation, from, to), test);
      default: {
        const place = placeNamed(this.#sound.network, test.place);
        return isLiveAt(this.#solution(situation, 'ac'), place) ? 'live' : 'dead';
      }
    }
  }

  /** What a fuse link is when it is taken out, beside the rating the entry gives it. */
  fuse(situation: Situation, id: string): FuseAnswer {
    const rating = ({ branches, branchIndex }: Network) => {
      const branch = branches[branchIndex.get(id)!]!;
      return branch.kind === 'element' && 'rating' in branch.element ? branch.element.rating : null;
    };
    const own = rating(this.network);
    if (own === null || this.round(situation)[0]!.blown.has(id)) return 'blown';
    return own === rating(this.#sound.network) ? 'intact' : 'wrong rating';
  }

  /** Volts an instrument shows: RMS, or direct with the first point positive. */
  volts(
    situation: Situation,
    from: string,
    to: string,
    instrument: Instrument,
    current: 'ac' | 'dc',
  ): number {
    return readVolts(this.#solution(situation, current), from, to, instrument, current);
  }

  /** The class of the alternating voltage an instrument shows. */
  classOf(situation: Situation, from: string, to: string, instrument: Instrument): ReadingClass {
    return readClass(this.#solution(situation, 'ac'), from, to, instrument);
  }

  /** Resistance between two points in a situation, ohms. */
  ohms(situation: Situation, from: string, to: string): number {
    const dc = this.#spectrum(situation, 'dc');
    return resistanceBetween({ network: this.network, dc }, from, to);
  }

  #solution(situation: Situation, current: 'ac' | 'dc'): Pick<Solution, 'network' | 'ac' | 'dc'> {
    const acting = this.#spectrum(situation, current);
    const { network } = this;
    return current === 'ac'
      ? { network, ac: acting, dc: SILENT }
      : { network, ac: SILENT, dc: acting };
  }

  #spectrum(situation: Situation, current: 'ac' | 'dc'): Spectrum {
    const round = this.round(situation);
    const kept = this.#solutions.get(situation.id);
    if (kept) return kept[current];
    const byCircuit = this.#cache.get(`${situation.id} ${current}`, () => new Map());
    const cached = byCircuit.get(this.#id);
    if (cached) return cached;
    const spectrum = solve(this.network, round[0]!)[current];
    byCircuit.set(this.#id, spectrum);
    return spectrum;
  }
}
