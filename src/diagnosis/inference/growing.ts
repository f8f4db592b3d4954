import {
  atRest,
  type Memory,
  type Seen,
  type Settled,
  type Simulation,
  settleMode,
} from '../../circuit/index.ts';
import type { Fault } from '../faults/index.ts';
import { type Circumstance, circumstancesOf, settleUnder } from '../no-fault.ts';
import { SettledStatesPacker } from '../settled-states.ts';
import { type Shown, shownBy } from '../signatures.ts';
import { mayBeOne } from '../tests/index.ts';
import { circumstanceRow } from './circumstances.ts';
import { ANSWER_CODES, rowText } from './codes.ts';
import type { CompactSignatures } from './compact.ts';
import { listedFor } from './model.ts';
import type { Observation } from './observation.ts';
import { questionKey, questionOf } from './question.ts';
import type { Steps } from './steps.ts';

type Look = Extract<Observation, { kind: 'look' }>;

/**
 * What the faults of a system show, worked out on the spot as far as somebody needs it: nobody
 * has worked it out before. First only what a look in one mode finds with each, then one after
 * another in full, in the order in which they are asked for. Once all are worked out it is what
 * `compactSignatures` packs.
 */
export class GrowingSignatures {
  readonly #simulation: Simulation;
  readonly #shown: Shown;
  readonly #faults: ReadonlyMap<string, Fault>;
  readonly #circumstances: ReadonlyMap<string, Circumstance>;
  readonly #packer: SettledStatesPacker;
  readonly #sound: string;
  /** By fault: the place of its row. */
  readonly #rowOf = new Map<string, number>();
  readonly #rows = new Map<string, number>();
  /** By circumstance: its row, once it is worked out. */
  readonly #under = new Map<string, string>();
  /** By fault or circumstance: the code of what was looked at, by question. */
  readonly #looked = new Map<string, Record<string, number>>();

  constructor(simulation: Simulation) {
    const { tests, faults } = listedFor(simulation);
    this.#simulation = simulation;
    this.#faults = new Map(faults.map((fault) => [fault.id, fault]));
    this.#circumstances = new Map(circumstancesOf(simulation.network).map((one) => [one.id, one]));
    this.#shown = shownBy(simulation, tests);
    this.#packer = new SettledStatesPacker(this.#shown.situations.map(({ id }) => id));
    this.#sound = rowText(this.#shown.sound);
    this.#rows.set(this.#sound, 0);
  }

  /** Whether a fault or circumstance is worked out; what is neither counts as worked out. */
  has = (id: string): boolean =>
    this.#rowOf.has(id) ||
    this.#under.has(id) ||
    !(this.#faults.has(id) || this.#circumstances.has(id));

  /** How many faults and circumstances are worked out, and of how many. */
  get progress(): { readonly done: number; readonly of: number } {
    return {
      done: this.#rowOf.size + this.#under.size,
      of: this.#faults.size + this.#circumstances.size,
    };
  }

  /** Everything known so far. */
  get compact(): CompactSignatures {
    const { done, of } = this.progress;
    const looked = [...this.#looked].filter(([id]) => !this.has(id));
    return {
      tests: listedFor(this.#simulation).tests.map(({ id }) => id),
      rows: [...this.#rows.keys()],
      faults: [...this.#rowOf],
      circumstances: [...this.#circumstances.keys()].flatMap((id) => {
        const row = this.#under.get(id) ?? null;
        return row === this.#sound ? [] : [[id, row] as const];
      }),
      settled: this.#packer.packed(),
      ...(done < of ? { soFar: Object.fromEntries(looked) } : {}),
    };
  }

  /** Works one fault or circumstance out in full; again it is nothing. */
  work(id: string): void {
    if (this.has(id)) return;
    const fault = this.#faults.get(id);
    if (!fault) {
      const { tests } = listedFor(this.#simulation);
      const circumstance = this.#circumstances.get(id)!;
      this.#under.set(id, circumstanceRow(this.#simulation, tests, circumstance));
      return;
    }
    const { answers, rounds } = this.#shown.with(fault);
    this.#packer.add(id, rounds);
    const silent = answers.every((answer, i) => mayBeOne(answer, this.#shown.sound[i]!));
    const row = silent ? this.#sound : rowText(answers);
    if (!this.#rows.has(row)) this.#rows.set(row, this.#rows.size);
    this.#rowOf.set(id, this.#rows.get(row)!);
  }

  /**
   * Notes what some looks find with each fault and circumstance that is not worked out, one at
   * each step. Its modes alone are settled: a fuse that only another mode blows is taken as whole
   * until the fault is worked out.
   * @param ids in the order in which they matter
   */
  *glance(ids: Iterable<string>, looks: readonly Look[]): Steps<void> {
    if (looks.length === 0) return;
    for (const id of ids) {
      if (this.has(id)) continue;
      const rests = this.#restsWith(id);
      const own = this.#looked.get(id) ?? {};
      for (const look of looks) {
        const key = questionKey(questionOf(look));
        own[key] ??= codeOf(rests(look.mode).outcomes.get(look.outcome));
      }
      this.#looked.set(id, own);
      yield;
    }
  }

  /** How the system rests in a mode with a fault, or in a circumstance. */
  #restsWith(id: string): (mode: string) => Settled {
    const fault = this.#faults.get(id);
    if (!fault) {
      const circumstance = this.#circumstances.get(id)!;
      const { network } = this.#simulation;
      return (mode) => settleUnder(network, [mode], circumstance).modes.get(mode)!;
    }
    const network = fault.circuit();
    const { modes } = network.system;
    const start = atRest(network);
    const settled = new Map<string, Settled>();
    const rest = (mode: string): Settled => {
      const before = settled.get(mode);
      if (before) return before;
      const { after, conditions } = modes[mode]!;
      const from: Memory = after === undefined ? start : rest(after).state;
      const made = settleMode(network, mode, conditions, from);
      settled.set(mode, made);
      return made;
    };
    return rest;
  }
}

function codeOf(seen: Seen | undefined): number {
  if (seen === undefined) return ANSWER_CODES.unsettled;
  if (seen === 'hunting') return ANSWER_CODES['comes and goes'];
  return ANSWER_CODES[seen ? 'seen' : 'not seen'];
}
