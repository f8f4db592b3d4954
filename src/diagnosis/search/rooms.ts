import { type Group, Groups } from './groups.ts';
import { refine } from './labels.ts';
import { leastOf, type Node, type Way } from './nodes.ts';
import type { Reduced } from './reduce.ts';
import { partsOf } from './splits.ts';
import { EQUAL, type Meter } from './state.ts';

/**
 * Least cost of entering rooms, where whoever stands in a mode learns for nothing all that the
 * tests of one phase tell there behind the covers that are off: AO*, best first.
 *
 * A node is solved when all that follows its least way is. No tree is kept, and no upper bound:
 * a way is followed only while it is the least.
 */
export class RoomSearch {
  /** A problem with one test for each room, its reading free. */
  readonly #problem: Reduced;
  readonly #meter: Meter;
  readonly #helpers: readonly RoomSearch[];
  readonly #effort: number;
  readonly #groups: Groups<Node>;
  readonly #hasPlaces: boolean;

  /**
   * @param helpers simpler searches whose least costs, added, bound this one's.
   * @param effort nodes that each may expand when asked for one node of this.
   */
  constructor(problem: Reduced, meter: Meter, helpers: readonly RoomSearch[] = [], effort = 4) {
    this.#problem = problem;
    this.#meter = meter;
    this.#helpers = helpers;
    this.#effort = effort;
    this.#groups = new Groups(problem);
    this.#hasPlaces = problem.tests.some((test) => test.place >= 0);
  }

  /**
   * A bound on the cost from somewhere with some bundles left, better each time it is asked.
   * @param effort nodes that it may expand.
   */
  bound(
    members: readonly number[],
    mode: number,
    opened: number,
    phase: number,
    effort: number,
  ): number {
    const group = this.#groups.of(members);
    if (!group) return 0;
    const node = this.#node(
      group,
      this.#problem.modeMinutes.length > 1 ? mode : 0,
      this.#hasPlaces ? opened : 0,
      phase,
    );
    const limit = this.#meter.expanded + effort;
    while (!node.done && this.#meter.expanded < limit) this.#trial(node);
    return node.lower;
  }

  #trial(node: Node): void {
    if (!node.ways) {
      if (!node.helped && this.#help(node)) return;
      this.#expand(node);
    } else {
      const way = leastOf(node.ways);
      if (way.next) {
        let largest: Node | null = null;
        for (const next of way.next) {
          if (!next.done && (!largest || next.lower > largest.lower)) largest = next;
        }
        if (largest) this.#trial(largest);
      } else way.next = this.#follow(node, way);
    }
    this.#backUp(node, node.ways!);
  }

  /** Carries the bounds of what follows to a node: nodes that others share rise unseen. */
  #backUp(node: Node, ways: readonly Way[]): void {
    let least = leastOf(ways);
    for (;;) {
      if (!least.next) break;
      let lower = least.cost;
      for (const next of least.next) lower += next.lower;
      if (lower <= least.lower) break;
      least.lower = lower;
      least = leastOf(ways);
    }
    if (least.lower > node.lower) node.lower = least.lower;
    if (!least.next?.every((next) => next.done)) return;
    node.done = true;
    node.ways = [];
  }

  /** Asks the simpler searches; whether that raised the bound. */
  #help(node: Node): boolean {
    node.helped = true;
    let lower = 0;
    for (const helper of this.#helpers)
      lower += helper.bound(node.group.members, node.mode, node.opened, node.phase, this.#effort);
    if (lower <= node.lower + EQUAL) return false;
    node.lower = lower;
    return true;
  }

  /**
   * Each way on either changes to a mode, with the covers as they are, or takes one cover off
   * where we stand. Both at once is no better than one after the other, and a way only where
   * neither alone tells anything.
   */
  #expand(node: Node): void {
    this.#meter.expanded++;
    const { tests, modeMinutes, placeMinutes } = this.#problem;
    const { group, mode, opened, phase } = node;
    const latest = Math.max(group.lastPhase, phase);
    const isOpen = (place: number) => place < 0 || ((opened >> place) & 1) === 1;
    const able = group.rooms.filter((room) => {
      const { phase: then } = tests[room]!;
      return then >= phase && then <= latest;
    });
    const ways: Way[] = [];
    /** Whether the way costs nothing, and the way back too: then it may as well be taken. */
    const add = (room: number, minutes: number): boolean => {
      const test = tests[room]!;
      const cost = minutes * group.weight;
      const after = test.place < 0 ? opened : opened | (1 << test.place);
      const { members, weight, places } = group;
      const lower =
        cost + this.#groups.entries.least(members, weight, test.mode, after & places, test.phase);
      const way: Way = { room, cost, lower, next: null };
      if (minutes === 0 && test.phase === phase && modeMinutes[test.mode]![mode] === 0) {
        node.ways = [way];
        return true;
      }
      ways.push(way);
      return false;
    };
    /** Modes that tell something with the covers as they are, by mode and phase. */
    const told = new Uint8Array(modeMinutes.length * this.#groups.phases);
    /** First phase in which taking a cover off here tells something, by place. */
    const here = new Int8Array(placeMinutes.length).fill(-1);
    for (const room of able) {
      const { mode: to, place, phase: then } = tests[room]!;
      if (!isOpen(place)) {
        if (to === mode && (here[place]! < 0 || then < here[place]!)) here[place] = then;
        continue;
      }
      const station = to * this.#groups.phases + then;
      if (told[station] === 1) continue;
      told[station] = 1;
      if (add(room, modeMinutes[mode]![to]!)) return;
    }
    for (const room of able) {
      const { mode: to, place, phase: then } = tests[room]!;
      if (isOpen(place)) continue;
      if (to !== mode || then !== phase) {
        const first = here[place]!;
        if (first >= 0 && first <= then && (to !== mode || first < then)) continue;
        if (
          told
            .subarray(to * this.#groups.phases + phase, to * this.#groups.phases + then + 1)
            .includes(1)
        )
          continue;
      }
      if (add(room, modeMinutes[mode]![to]! + placeMinutes[place]!)) return;
    }
    node.ways = ways;
  }

  #follow({ group, opened }: Node, { room }: Way): Node[] {
    const { mode, place, phase } = this.#problem.tests[room]!;
    const then = place < 0 ? opened : opened | (1 << place);
    const nodes: Node[] = [];
    this.#learn(group, mode, then, phase, nodes);
    return nodes;
  }

  /** Adds what is left of a group once all that is free has been learnt, as nodes. */
  #learn(group: Group<Node>, mode: number, opened: number, phase: number, nodes: Node[]): void {
    const { tests } = this.#problem;
    this.#groups.survey(group);
    let codes: Uint16Array | null = null;
    let arity = 1;
    for (const room of group.rooms) {
      const test = tests[room]!;
      if (test.mode !== mode || test.phase !== phase) continue;
      if (test.place >= 0 && ((opened >> test.place) & 1) === 0) continue;
      codes ??= new Uint16Array(group.members.length);
      arity = refine(codes, arity, test.answers, group.members);
    }
    if (!codes) {
      nodes.push(this.#stay(group, mode, opened, phase));
      return;
    }
    for (const part of partsOf(group.members, codes, arity)) {
      const next = this.#groups.of(part, group.rooms);
      if (!next) continue;
      this.#groups.survey(next);
      // A later phase may now be the first that tells anything, and free here.
      const from = next.phases.find((one) => one >= phase) ?? phase;
      if (from > phase) this.#learn(next, mode, opened, from, nodes);
      else nodes.push(this.#stay(next, mode, opened, phase));
    }
  }

  /** The node of a group that may have something to learn for nothing. */
  #node(group: Group<Node>, mode: number, opened: number, phase: number): Node {
    this.#groups.survey(group);
    const from = group.phases.find((one) => one >= phase) ?? phase;
    const next: Node[] = [];
    this.#learn(group, mode, opened, from, next);
    if (next.length === 1 && next[0]!.group === group) return next[0]!;
    const key = -1 - this.#keyOf(mode, opened & group.places, from);
    const known = group.nodes.get(key);
    if (known) return known;
    const node = this.#make(group, mode, opened & group.places, from);
    let lower = 0;
    for (const one of next) lower += one.lower;
    node.lower = Math.max(node.lower, lower);
    node.helped = true;
    node.ways = [{ room: -1, cost: 0, lower, next }];
    node.done = next.every((one) => one.done);
    group.nodes.set(key, node);
    return node;
  }

  /** The node of a group with nothing more to learn for nothing. */
  #stay(group: Group<Node>, mode: number, opened: number, phase: number): Node {
    const open = opened & group.places;
    const key = this.#keyOf(mode, open, phase);
    const known = group.nodes.get(key);
    if (known) return known;
    const node = this.#make(group, mode, open, phase);
    group.nodes.set(key, node);
    return node;
  }

  #make(group: Group<Node>, mode: number, opened: number, phase: number): Node {
    const lower = this.#groups.entries.least(group.members, group.weight, mode, opened, phase);
    const helped = this.#helpers.length === 0;
    return { group, mode, opened, phase, lower, done: false, helped, ways: null };
  }

  #keyOf(mode: number, opened: number, phase: number): number {
    return (opened * this.#problem.modeMinutes.length + mode) * this.#groups.phases + phase;
  }
}
