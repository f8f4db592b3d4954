import { labelled, refine } from './labels.ts';
import type { Reduced } from './reduce.ts';

interface Entries {
  /** Minutes to come to a room, ascending. */
  readonly minutes: number[];
  /** For each of these, bundles alike in every room that is cheaper to come to. */
  readonly labels: Uint16Array[];
}

/**
 * Lower bounds on the minutes for entering rooms, that is for changes of mode and openings.
 * What they return is weighed: expected minutes times the weight of the bundles.
 */
export class EntryBounds {
  readonly #problem: Reduced;
  readonly #phases: number;
  readonly #rooms: readonly { mode: number; place: number; phase: number; labels: Uint16Array }[];
  readonly #entries = new Map<number, Entries>();
  readonly #isFree: boolean;
  readonly #repair: Int32Array;

  /** @param phases one more than the latest phase. */
  constructor(problem: Reduced, phases: number) {
    const { tests, count } = problem;
    this.#problem = problem;
    this.#phases = phases;
    const rooms = Map.groupBy(tests, ({ mode, place, phase }) => `${mode} ${place} ${phase}`);
    this.#rooms = [...rooms.values()].map((room) => {
      const { mode, place, phase } = room[0]!;
      return { mode, place, phase, labels: labelled(count, room) };
    });
    this.#isFree = problem.modeMinutes.length === 1 && tests.every((test) => test.place < 0);
    this.#repair = new Int32Array(count);
  }

  /**
   * Changes of mode and openings that any tree must pay for.
   *
   * Of bundles of several repairs that all rooms cheaper than c leave alike, none is parted
   * before a room that costs c or more is entered, and all of them are on the path that
   * enters it. By the triangle inequality no path comes to a room for less than from here.
   */
  least(
    members: readonly number[],
    weight: number,
    mode: number,
    opened: number,
    phase: number,
  ): number {
    if (this.#isFree) return 0;
    const { minutes, labels } = this.#entriesFrom(mode, opened, phase);
    let total = 0;
    let before = 0;
    for (let i = 0; i < minutes.length; i++) {
      const paying = i === 0 ? weight : this.#unresolved(members, labels[i]!);
      if (paying === 0) break;
      total += (minutes[i]! - before) * paying;
      before = minutes[i]!;
    }
    return total;
  }

  /** Whether members with equal labels share one repair. */
  resolves(members: readonly number[], labels: Uint16Array): boolean {
    return this.#unresolved(members, labels) === 0;
  }

  /** Weight of the members that share their label with one of another repair. */
  #unresolved(members: readonly number[], labels: Uint16Array): number {
    const { repairs, weights } = this.#problem;
    const repair = this.#repair;
    for (const member of members) repair[labels[member]!] = -1;
    for (const member of members) {
      const label = labels[member]!;
      const own = repairs[member]!;
      if (repair[label] === -1) repair[label] = own;
      else if (repair[label] !== own) repair[label] = -2;
    }
    let weight = 0;
    for (const member of members) if (repair[labels[member]!] === -2) weight += weights[member]!;
    return weight;
  }

  #entriesFrom(mode: number, opened: number, phase: number): Entries {
    const { count, modeMinutes, placeMinutes } = this.#problem;
    const key = (opened * modeMinutes.length + mode) * this.#phases + phase;
    const known = this.#entries.get(key);
    if (known) return known;
    const rooms = this.#rooms
      .filter((room) => room.phase >= phase)
      .map((room) => ({
        minutes:
          modeMinutes[mode]![room.mode]! +
          (room.place < 0 || (opened >> room.place) & 1 ? 0 : placeMinutes[room.place]!),
        labels: room.labels,
      }));
    const entries: Entries = { minutes: [], labels: [] };
    let labels: Uint16Array = new Uint16Array(count);
    let arity = 1;
    for (const minutes of [...new Set(rooms.map((room) => room.minutes))].sort((a, b) => a - b)) {
      const before = labels;
      const less = arity;
      labels = labels.slice();
      for (const room of rooms) {
        if (room.minutes === minutes) arity = refine(labels, arity, room.labels);
      }
      if (arity === less) continue;
      entries.minutes.push(minutes);
      entries.labels.push(before);
      if (arity === count) break;
    }
    this.#entries.set(key, entries);
    return entries;
  }
}
