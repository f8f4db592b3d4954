import { EntryBounds } from './entering.ts';
import { labelled } from './labels.ts';
import { type Reduced, weightOfSeveral } from './reduce.ts';

/** Some bundles of more than one repair. */
export interface Group<Node> {
  readonly members: readonly number[];
  readonly weight: number;
  /** Rooms that split it, ascending; those of its parent until it is surveyed. */
  rooms: readonly number[];
  surveyed: boolean;
  /** Places of its rooms, by bit. */
  places: number;
  /** Phases of its rooms, ascending. */
  phases: readonly number[];
  /** Latest phase whose rooms, with later ones, tell all its repairs apart. */
  lastPhase: number;
  readonly nodes: Map<number, Node>;
}

/** Makes groups of one problem's bundles and keeps one of each. */
export class Groups<Node> {
  readonly entries: EntryBounds;
  /** One more than the latest phase. */
  readonly phases: number;
  readonly #problem: Reduced;
  readonly #kept = new Map<string, Group<Node>>();
  /** By phase: bundles that no room of that phase or a later one tells apart. */
  readonly #classes: readonly Uint16Array[];
  readonly #every: readonly number[];
  readonly #words: Uint16Array;

  constructor(problem: Reduced) {
    const { count, tests } = problem;
    this.#problem = problem;
    this.phases = 1 + Math.max(0, ...tests.map((test) => test.phase));
    this.entries = new EntryBounds(problem, this.phases);
    this.#classes = Array.from({ length: this.phases }, (_, phase) =>
      labelled(
        count,
        tests.filter((test) => test.phase >= phase),
      ),
    );
    this.#every = tests.map((_, room) => room);
    this.#words = new Uint16Array((count + 15) >> 4);
  }

  /**
   * The one group kept of some bundles; null when they share one repair.
   * @param rooms those that may split it; all when left out.
   */
  of(members: readonly number[], rooms: readonly number[] = this.#every): Group<Node> | null {
    const weight = weightOfSeveral(this.#problem, members);
    if (weight === null) return null;
    const words = this.#words.fill(0);
    for (const member of members) words[member >> 4]! |= 1 << (member & 15);
    const key = String.fromCharCode(...words);
    let group = this.#kept.get(key);
    if (!group) {
      const surveyed = false;
      const nodes = new Map<number, Node>();
      group = { members, weight, rooms, surveyed, places: 0, phases: [], lastPhase: 0, nodes };
      this.#kept.set(key, group);
    }
    return group;
  }

  /** Finds which rooms split a group. */
  survey(group: Group<Node>): void {
    if (group.surveyed) return;
    group.surveyed = true;
    const { tests } = this.#problem;
    const { members } = group;
    group.rooms = group.rooms.filter((room) => {
      const { answers } = tests[room]!;
      const common = answers[members[0]!];
      return members.some((member) => answers[member] !== common);
    });
    for (const room of group.rooms) {
      const { place } = tests[room]!;
      if (place >= 0) group.places |= 1 << place;
    }
    group.phases = [...new Set(group.rooms.map((room) => tests[room]!.phase))].sort(
      (a, b) => a - b,
    );
    group.lastPhase = 0;
    for (let phase = this.phases - 1; phase > 0; phase--) {
      if (!this.entries.resolves(members, this.#classes[phase]!)) continue;
      group.lastPhase = phase;
      break;
    }
  }
}
