import { compose } from '../faults/index.ts';
import type { Hypothesis } from './hypothesis.ts';
import type { Evidence } from './likelihood.ts';

/** Faults with the same answers to everything asked, of which something is not as in a sound system. */
export interface Group {
  /** Its place among the groups. */
  readonly place: number;
  /** Places of its faults among the singles, likeliest first, one of each repair before the second of any. */
  readonly members: readonly number[];
  /** Logarithm of the likelihood of everything observed. */
  readonly log: number;
}

/** Estimates only: one fault whose effect another hides, or two that meet at one point. */
const HIDDEN_LOG = Math.log(0.1);
const EITHER_LOG = Math.log(0.5);

/**
 * How likely one fault hides what another shows at a further point, once it does at one. Rarely,
 * where both are far apart, nearly always where one cuts the other off: each misses pairs that
 * the other puts first.
 */
export const HIDING = [0.1, 0.8] as const;
export type Hiding = (typeof HIDING)[number];

/**
 * Estimates, for any two groups of faults, how likely both together make what was observed: at
 * a point that one of them leaves sound the other rules, and where both speak one of them rules
 * everywhere or either here and there. Every observation must be explained by one of them or be a
 * misreading: the candidates of de Kleer and Williams, "Diagnosing Multiple Faults" (1987),
 * found by scoring all pairs instead of by conflicts.
 */
export class PairEstimate {
  readonly groups: readonly Group[];
  readonly #groupOf: ReadonlyMap<number, Group>;
  readonly #sound: Uint8Array;
  /** By group and observation. */
  readonly #codes: readonly Uint8Array[];
  readonly #logs: readonly Float64Array[];
  readonly #agrees: readonly Uint8Array[];
  /** By group: places of the observations that it does not answer as a sound system does. */
  readonly #marks: readonly Uint16Array[];
  readonly #prior: readonly number[];

  /** @param predicted codes by observation, in the order of the singles; the last is sound. */
  constructor(
    singles: readonly Hypothesis[],
    evidence: readonly Evidence[],
    predicted: readonly Uint8Array[],
  ) {
    const last = singles.length - 1;
    const of = (at: number) => Uint8Array.from(predicted, (codes) => codes[at]!);
    const sound = of(last);
    const places = [...singles.keys()].filter((at) => singles[at]!.faults.length > 0);
    const alike = Map.groupBy(places, (at) => of(at).join());
    alike.delete(sound.join());
    this.groups = [...alike.values()].map((members, place) => {
      const sorted = unlikeFirst(
        members.toSorted((a, b) => singles[b]!.prior - singles[a]!.prior),
        (at) => singles[at]!.repairKey,
      );
      const log = evidence.reduce((sum, { log }) => sum + log[sorted[0]!]!, 0);
      return { place, members: sorted, log };
    });
    const firsts = this.groups.map(({ members }) => members[0]!);
    this.#groupOf = new Map(this.groups.flatMap((group) => group.members.map((at) => [at, group])));
    this.#sound = sound;
    this.#codes = firsts.map(of);
    this.#logs = firsts.map((at) => Float64Array.from(evidence, ({ log }) => log[at]!));
    this.#agrees = firsts.map((at) => Uint8Array.from(evidence, ({ agrees }) => agrees[at]!));
    this.#marks = this.#codes.map((codes) =>
      Uint16Array.from([...codes.keys()].filter((o) => codes[o] !== sound[o])),
    );
    this.#prior = firsts.map((at) => Math.log(singles[at]!.prior));
  }

  /** The group of a single; undefined where it answers everything as a sound system does. */
  groupOf = (single: number): Group | undefined => this.#groupOf.get(single);

  /** Groups by the posterior of their likeliest fault alone. */
  likeliest(): Group[] {
    const posterior = ({ place, log }: Group) => log + this.#prior[place]!;
    return this.groups.toSorted((a, b) => posterior(b) - posterior(a));
  }

  /** The likeliest pairs of groups, a group with itself too, best first. */
  best(most: number, hiding: Hiding): (readonly [Group, Group])[] {
    const count = this.groups.length;
    const scores = new Float64Array((count * (count + 1)) / 2);
    let next = 0;
    for (let a = 0; a < count; a++)
      for (let b = a; b < count; b++) scores[next++] = this.#score(a, b, hiding);
    const least = scores.toSorted().at(-most) ?? Number.NEGATIVE_INFINITY;
    const found: { score: number; pair: readonly [Group, Group] }[] = [];
    next = 0;
    for (let a = 0; a < count; a++) {
      for (let b = a; b < count; b++) {
        const score = scores[next++]!;
        if (score >= least) found.push({ score, pair: [this.groups[a]!, this.groups[b]!] });
      }
    }
    return found.sort((x, y) => y.score - x.score).map(({ pair }) => pair);
  }

  /** All groups, by how likely each is beside one of them; none beside a sound system. */
  beside(group: Group | undefined, hiding: Hiding): Group[] {
    if (!group) return [];
    const score = Float64Array.from(this.groups, (_, b) => this.#score(group.place, b, hiding));
    return this.groups.toSorted((x, y) => score[y.place]! - score[x.place]!);
  }

  /** Logarithm of prior times estimated likelihood of the likeliest two of two groups. */
  #score(a: number, b: number, hiding: Hiding): number {
    const sound = this.#sound;
    const [ofA, ofB] = [this.#codes[a]!, this.#codes[b]!];
    const [logA, logB] = [this.#logs[a]!, this.#logs[b]!];
    const [agreesA, agreesB] = [this.#agrees[a]!, this.#agrees[b]!];
    const [marksA, marksB] = [this.#marks[a]!, this.#marks[b]!];
    // Where `a` answers as a sound system does, `b` alone decides the answer.
    let log = this.groups[b]!.log;
    let allA = 0;
    let allB = 0;
    let either = 0;
    let hidden = 0;
    for (let i = 0; i < marksA.length; i++) {
      const at = marksA[i]!;
      const own = logA[at]!;
      const other = logB[at]!;
      log -= other;
      if (ofB[at] === ofA[at]) log += own;
      else if (ofB[at] === sound[at]) {
        if (agreesB[at]! > agreesA[at]!) hidden++;
        else log += own;
      } else {
        allA += own;
        allB += other;
        either += Math.max(own, other) + EITHER_LOG;
      }
    }
    for (let i = 0; i < marksB.length; i++) {
      const at = marksB[i]!;
      if (ofA[at] !== sound[at] || agreesA[at]! <= agreesB[at]!) continue;
      hidden++;
      log -= logB[at]!;
    }
    if (hidden > 0) log += HIDDEN_LOG + (hidden - 1) * Math.log(hiding);
    return this.#prior[a]! + this.#prior[b]! + log + Math.max(allA, allB, either);
  }
}

/** The same with one of each kind before the second of any. */
export function unlikeFirst<T>(values: readonly T[], kindOf: (value: T) => unknown): T[] {
  const seen = new Map<unknown, number>();
  const turns = values.map((value) => {
    const turn = seen.get(kindOf(value)) ?? 0;
    seen.set(kindOf(value), turn + 1);
    return [turn, value] as const;
  });
  return turns.sort(([a], [b]) => a - b).map(([, value]) => value);
}

/** Whether two faults can be in one circuit and need two repairs. */
export const canBeTogether = (a: Hypothesis, b: Hypothesis): boolean =>
  a.repairKey !== b.repairKey && compose(a.faults[0]!.edit, b.faults[0]!.edit);

/**
 * Twos of two groups, as places among the singles, that can be in one circuit and need two
 * repairs: up to `most`, the likeliest of each group first.
 */
export function twos(
  singles: readonly Hypothesis[],
  as: readonly number[],
  bs: readonly number[],
  most: number,
): [number, number][] {
  const found: [number, number][] = [];
  // By the sum of both places, so that the likeliest of each come first.
  for (let sum = 0; sum < as.length + bs.length - 1 && found.length < most; sum++) {
    for (let i = Math.max(0, sum - bs.length + 1); i <= Math.min(sum, as.length - 1); i++) {
      const [a, b] = [as[i]!, bs[sum - i]!];
      if (as === bs && i >= sum - i) continue;
      if (!canBeTogether(singles[a]!, singles[b]!)) continue;
      found.push([a, b]);
      if (found.length === most) break;
    }
  }
  return found;
}
