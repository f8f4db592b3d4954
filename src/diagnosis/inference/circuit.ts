import {
  CLASS_LIMITS,
  holds,
  type Instrument,
  magnitude,
  type Network,
  read,
  resistanceBetween,
  type Seen,
  type Simulation,
  type Solution,
  type Spectrum,
  type State,
  simulateAsFound,
  solve,
  voltage,
} from '../../circuit/index.ts';
import { type Edit, editedCircuit } from '../faults/index.ts';
import type { FuseAnswer } from '../tests/index.ts';
import type { Rested } from './rests.ts';
import type { SpectrumShelf } from './shelf.ts';

/** Nothing acts at this frequency: what a reading of the other current is taken with. */
const SILENT: Spectrum = {
  hertz: 0,
  factor: () => {
    throw new RangeError('a spectrum in which nothing acts has no factor');
  },
  potentials: () => null,
};

/** What a circuit is made from. */
export interface CircuitSource {
  /** By which the shelf knows it. */
  readonly id: string;
  readonly sound: Simulation;
  readonly edits: readonly Edit[];
  /** Its rest in a mode where the build worked it out; it is simulated otherwise. */
  readonly known?: ((mode: string) => Rested[]) | null;
  /** Settles each mode by itself when it is asked for: what another would blow is whole. */
  readonly modeByMode?: boolean;
  readonly shelf: SpectrumShelf;
}

/**
 * The circuit of one explanation as an engineer finds it, worked out as far as it is asked:
 * its states in the modes wanted, its solution at the frequency wanted.
 */
export class FoundCircuit {
  readonly #id: string;
  readonly #sound: Simulation;
  readonly #edits: readonly Edit[];
  readonly #known: ((mode: string) => Rested[]) | null;
  readonly #modeByMode: boolean;
  readonly #shelf: SpectrumShelf;
  #network: Network | undefined;
  readonly #rounds = new Map<string, readonly State[]>();

  constructor({ id, sound, edits, known, modeByMode, shelf }: CircuitSource) {
    this.#id = id;
    this.#sound = sound;
    this.#edits = edits;
    this.#known = known ?? null;
    this.#modeByMode = modeByMode ?? false;
    this.#shelf = shelf;
  }

  get network(): Network {
    this.#network ??= editedCircuit(this.#sound.network, this.#edits);
    return this.#network;
  }

  /** The states it goes through at rest in a mode: one, or several when it hunts. */
  round(mode: string): readonly State[] {
    const known = this.#rounds.get(mode);
    if (known) return known;
    if (this.#known) {
      const { conditions } = this.#sound.modes.get(mode)!.state;
      const round = this.#known(mode).map((rest) => ({ ...rest, conditions }));
      this.#rounds.set(mode, round);
      return round;
    }
    const { modes } = simulateAsFound(this.#modeByMode ? onlyIn(this.network, mode) : this.network);
    for (const [id, { round }] of modes) this.#rounds.set(id, round);
    return this.#rounds.get(mode)!;
  }

  seen(mode: string, outcome: string): Seen {
    const [item, name] = outcome.split('.') as [string, string];
    const { when } = this.#sound.network.items.get(item)!.device.outcomes[name]!;
    const views = new Set(this.round(mode).map((state) => holds(when, item, state)));
    return views.size > 1 ? 'hunting' : views.has(true);
  }

  /** What a fuse link is when it is taken out, beside the rating the entry gives it. */
  fuse(mode: string, id: string): FuseAnswer {
    const rating = ({ branches, branchIndex }: Network) => {
      const branch = branches[branchIndex.get(id)!]!;
      return branch.kind === 'element' && 'rating' in branch.element ? branch.element.rating : null;
    };
    const own = rating(this.network);
    if (own === null || this.round(mode)[0]!.blown.has(id)) return 'blown';
    return own === rating(this.#sound.network) ? 'intact' : 'wrong rating';
  }

  /** Volts an instrument shows: RMS, or direct with the first point positive. */
  volts(
    mode: string,
    from: string,
    to: string,
    instrument: Instrument,
    current: 'ac' | 'dc',
  ): number {
    const solution = this.#solution(mode, current);
    const reading = read(solution, from, to, instrument);
    return reading[current];
  }

  /**
   * The same where only its class is asked: a voltage that is dead before the instrument's
   * load is laid on it is not worked out further, since a load on a passive circuit never
   * raises it.
   */
  voltsForClass(mode: string, from: string, to: string, instrument: Instrument): number {
    const { ac } = this.#solution(mode, 'ac');
    const { nodeIndex } = this.network;
    const open = magnitude(voltage(ac, nodeIndex.get(from)!, nodeIndex.get(to)!));
    return open <= CLASS_LIMITS.dead ? open : this.volts(mode, from, to, instrument, 'ac');
  }

  /** Resistance between two points in a mode, ohms. */
  ohms(mode: string, from: string, to: string): number {
    const dc = this.#spectrum(mode, 'dc');
    return resistanceBetween({ network: this.network, parts: [], ac: SILENT, dc }, from, to);
  }

  #solution(mode: string, current: 'ac' | 'dc'): Solution {
    const acting = this.#spectrum(mode, current);
    const { network } = this;
    return current === 'ac'
      ? { network, parts: [], ac: acting, dc: SILENT }
      : { network, parts: [], ac: SILENT, dc: acting };
  }

  #spectrum(mode: string, current: 'ac' | 'dc'): Spectrum {
    return this.#shelf.get(`${mode} ${current}`, this.#id, () => {
      const spectrum = solve(this.network, this.round(mode)[0]!)[current];
      const potentials = spectrum.potentials();
      const factor = spectrum.factor();
      // What it was made from is let go: a factor and its potentials are all a reading needs.
      return { hertz: spectrum.hertz, factor: () => factor, potentials: () => potentials };
    });
  }
}

/** The same network with one of its modes and those it comes after. */
function onlyIn(network: Network, mode: string): Network {
  const { system } = network;
  const part: (typeof system)['modes'] = {};
  for (let at: string | undefined = mode; at !== undefined; at = system.modes[at]?.after)
    part[at] = system.modes[at]!;
  return { ...network, system: { ...system, modes: part } };
}
