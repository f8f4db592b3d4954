import { compose } from '../faults/index.ts';
import type { Hypothesis } from './hypothesis.ts';
import type { Evidence } from './likelihood.ts';

/** Faults with the same answers to everything asked. */
export interface Group {
  /** Places among the singles, likeliest first. */
  readonly members: readonly number[];
  /** Place of the likeliest among the singles. */
  readonly at: number;
  /** Places of the observations for which it predicts otherwise than the sound system. */
  readonly marks: readonly number[];
  /** Logarithm of the likelihood of everything observed. */
  readonly log: number;
}

/** Two groups of faults, one fault of each to be tried together. */
export interface GroupPair {
  readonly a: Group;
  readonly b: Group;
  /** Logarithm of prior times estimated likelihood of the likeliest two together. */
  readonly score: number;
}

/** One fault whose effect another hides, or two that meet at one point: estimates only. */
const HIDDEN_LOG = Math.log(0.1);
const EITHER_LOG = Math.log(0.5);

/**
 * Single faults by what they answer to the questions asked; those that answer all of them as
 * the sound system does explain nothing alone, and have no marks.
 * @param predicted codes by observation, in the order of the singles; the last is sound.
 */
export function groupedFaults(
  singles: readonly Hypothesis[],
  evidence: readonly Evidence[],
  predicted: readonly Uint8Array[],
): Group[] {
  const sound = singles.length - 1;
  const places = [...singles.keys()].filter((at) => singles[at]!.faults.length > 0);
  const groups = Map.groupBy(places, (at) => predicted.map((codes) => codes[at]!).join());
  return [...groups.values()].map((members) => {
    const sorted = unlikeFirst(
      members.toSorted((a, b) => singles[b]!.prior - singles[a]!.prior),
      (at) => singles[at]!.repairKey,
    );
    const at = sorted[0]!;
    const marks = [...predicted.keys()].filter((o) => predicted[o]![at] !== predicted[o]![sound]);
    const log = evidence.reduce((sum, { log }) => sum + log[at]!, 0);
    return { members: sorted, at, marks, log };
  });
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

/** Groups by the posterior of their likeliest fault alone. */
export function likeliestGroups(singles: readonly Hypothesis[], groups: readonly Group[]): Group[] {
  const logPosterior = ({ at, log }: Group) => log + Math.log(singles[at]!.prior);
  return groups.toSorted((a, b) => logPosterior(b) - logPosterior(a));
}

/**
 * Pairs of groups worth simulating, likeliest first. Of two groups it is estimated what both
 * together answer: at a point that one of them leaves sound the other rules, and where both
 * speak one of them rules everywhere or either here and there. Every observation must be
 * explained by one of them or be a misreading: the candidates of de Kleer and Williams,
 * "Diagnosing Multiple Faults" (1987), found by scoring all pairs instead of by conflicts.
 * @param predicted as for `groupedFaults`.
 */
export function pairCandidates(
  singles: readonly Hypothesis[],
  groups: readonly Group[],
  evidence: readonly Evidence[],
  predicted: readonly Uint8Array[],
): GroupPair[] {
  return groups
    .flatMap((a, i) =>
      groups.slice(i).flatMap((b) => candidate(singles, a, b, evidence, predicted) ?? []),
    )
    .sort((x, y) => y.score - x.score);
}

/** The same of one group with every other. */
export function partnerCandidates(
  singles: readonly Hypothesis[],
  anchor: Group,
  groups: readonly Group[],
  evidence: readonly Evidence[],
  predicted: readonly Uint8Array[],
): GroupPair[] {
  return groups
    .flatMap((other) => candidate(singles, anchor, other, evidence, predicted) ?? [])
    .sort((x, y) => y.score - x.score);
}

function candidate(
  singles: readonly Hypothesis[],
  a: Group,
  b: Group,
  evidence: readonly Evidence[],
  predicted: readonly Uint8Array[],
): GroupPair | null {
  const [first] = twos(singles, a.members, b.members, 1);
  if (!first) return null;
  const prior = Math.log(singles[first[0]]!.prior) + Math.log(singles[first[1]]!.prior);
  return { a, b, score: prior + jointLog(a, b, evidence, predicted) };
}

/** The pairs in their order of which no group has had its share in those before. */
export function spread(pairs: readonly GroupPair[], share: number): GroupPair[] {
  const had = new Map<Group, number>();
  return pairs.filter(({ a, b }) => {
    const [ofA, ofB] = [had.get(a) ?? 0, had.get(b) ?? 0];
    if (ofA >= share || ofB >= share) return false;
    had.set(a, ofA + 1).set(b, ofB + 1);
    return true;
  });
}

/** Logarithm of the likelihood of everything observed under both, estimated. */
function jointLog(
  a: Group,
  b: Group,
  evidence: readonly Evidence[],
  predicted: readonly Uint8Array[],
): number {
  // At a point where `a` answers as a sound system does, `b` alone decides the answer.
  let log = b.log;
  const where = { a: 0, b: 0, either: 0 };
  for (const at of a.marks) {
    const { log: logs, agrees } = evidence[at]!;
    const codes = predicted[at]!;
    const [ofA, ofB] = [logs[a.at]!, logs[b.at]!];
    log -= ofB;
    if (codes[b.at] === codes[a.at]) log += ofA;
    else if (codes[b.at] === codes[codes.length - 1])
      log += agrees[b.at] && !agrees[a.at] ? HIDDEN_LOG : ofA;
    else {
      where.a += ofA;
      where.b += ofB;
      where.either += Math.max(ofA, ofB) + EITHER_LOG;
    }
  }
  for (const at of b.marks) {
    const { log: logs, agrees } = evidence[at]!;
    const codes = predicted[at]!;
    if (codes[a.at] === codes[codes.length - 1] && !agrees[b.at] && agrees[a.at])
      log += HIDDEN_LOG - logs[b.at]!;
  }
  return log + Math.max(where.a, where.b, where.either);
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
