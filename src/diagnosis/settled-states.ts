import type { State } from '../circuit/index.ts';

/** One state, each part a list of places in `names`; conditions come from the mode. */
type CompactState = readonly [
  energised: readonly number[],
  held: readonly number[],
  positions: readonly number[],
  blown: readonly number[],
];

/**
 * Where each fault's circuit, as found, comes to rest in each situation: plain JSON. With it a
 * reading that no list foresaw takes one solution of the circuit, and no settling.
 */
export interface CompactSettledStates {
  /** Ids of the situations: a mode, or a mode with a place open. */
  readonly situations: readonly string[];
  /** Branch ids, and positions as `Y1=open`. */
  readonly names: readonly string[];
  readonly states: readonly CompactState[];
  /** Rounds of states, by places in `states`; a circuit at rest has a round of one. */
  readonly rounds: readonly (readonly number[])[];
  /** By fault id: the place of its round in each situation. */
  readonly faults: Readonly<Record<string, readonly number[]>>;
}

/** A state without the conditions of its mode. */
export type SettledState = Omit<State, 'conditions'>;

/**
 * The states a fault's circuit goes through at rest in a situation, without their conditions.
 * @throws RangeError for a fault or situation that they do not hold.
 */
export function roundOf(
  settled: CompactSettledStates,
  fault: string,
  situation: string,
): SettledState[] {
  const round = settled.faults[fault]?.[settled.situations.indexOf(situation)];
  if (round === undefined)
    throw new RangeError(
      `no settled state is known of ${fault} in ${situation}: build the data anew`,
    );
  const named = (places: readonly number[]) => new Set(places.map((at) => settled.names[at]!));
  return settled.rounds[round]!.map((at) => {
    const [energised, held, positions, blown] = settled.states[at]!;
    return {
      energised: named(energised),
      held: named(held),
      positions: new Map(
        [...named(positions)].map((name) => name.split('=') as [item: string, position: string]),
      ),
      blown: named(blown),
    };
  });
}

/** Packs where the circuits of faults come to rest, one after the other. */
export class SettledStatesPacker {
  readonly #situations: readonly string[];
  readonly #names = new Places<string>(String);
  readonly #states = new Places<CompactState>(JSON.stringify);
  readonly #rounds = new Places<readonly number[]>(JSON.stringify);
  /** Place of each round by its state, where a circuit has come to rest: circuits share states. */
  readonly #rested = new Map<State, number>();
  readonly #faults: [id: string, rounds: readonly number[]][] = [];

  /** @param situations their ids */
  constructor(situations: readonly string[]) {
    this.#situations = situations;
  }

  /** Adds the states that a fault's circuit goes through in each situation. */
  add(fault: string, rounds: readonly (readonly State[])[]): void {
    this.#faults.push([fault, rounds.map((round) => this.#placeOf(round))]);
  }

  #placeOf(round: readonly State[]): number {
    const [only] = round;
    const known = round.length === 1 ? this.#rested.get(only!) : undefined;
    if (known !== undefined) return known;
    const place = this.#rounds.of(round.map((state) => this.#states.of(this.#pack(state))));
    if (round.length === 1) this.#rested.set(only!, place);
    return place;
  }

  packed(): CompactSettledStates {
    return {
      situations: this.#situations,
      faults: Object.fromEntries(this.#faults),
      names: this.#names.values,
      states: this.#states.values,
      rounds: this.#rounds.values,
    };
  }

  #pack(state: State): CompactState {
    const places = (ids: Iterable<string>) => [...ids].sort().map((id) => this.#names.of(id));
    return [
      places(state.energised),
      places(state.held),
      places([...state.positions].map(([item, position]) => `${item}=${position}`)),
      places(state.blown),
    ];
  }
}

/** Values kept once each, with their places. */
class Places<T> {
  readonly values: T[] = [];
  readonly #places = new Map<string, number>();
  readonly #key: (value: T) => string;

  constructor(key: (value: T) => string) {
    this.#key = key;
  }

  of(value: T): number {
    const key = this.#key(value);
    const known = this.#places.get(key);
    if (known !== undefined) return known;
    this.#places.set(key, this.values.length);
    this.values.push(value);
    return this.values.length - 1;
  }
}
