import { compose } from '../faults/index.ts';
import type { Evidence } from './evidence.ts';
import type { Hypothesis } from './hypothesis.ts';

/** Faults with the same answers to everything asked. */
export interface Group {
  /** Likeliest first. */
  readonly members: readonly Hypothesis[];
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
  /** Logarithm of what is believed of the likeliest two together, before they are simulated. */
  readonly score: number;
}

/** One fault whose effect another hides, or two that meet at one point: estimates only. */
const HIDDEN_LOG = Math.log(0.1);
const EITHER_LOG = Math.log(0.5);

/**
 * Single faults by what they answer to the questions asked. One that answers all of them as
 * the sound system does explains nothing, and is left out.
 * @param predicted codes by observation, in the order of the singles; the last is sound.
 */
export function groupedFaults(
  singles: readonly Hypothesis[],
  evidence: readonly Evidence[],
  predicted: readonly Uint8Array[],
): Group[] {
  const sound = singles.length - 1;
  const places = [...singles.keys()].slice(0, sound);
  const groups = Map.groupBy(places, (at) => predicted.map((codes) => codes[at]!).join());
  return [...groups.values()].flatMap((members) => {
    const sorted = unlikeFirst(
      members.toSorted((a, b) => singles[b]!.prior - singles[a]!.prior),
      (at) => singles[at]!.repairKey,
    );
    const at = sorted[0]!;
    const marks = [...predicted.keys()].filter((o) => predicted[o]![at] !== predicted[o]![sound]);
    if (marks.length === 0) return [];
    const log = evidence.reduce((sum, { log }) => sum + log[at]!, 0);
    return [{ members: sorted.map((m) => singles[m]!), at, marks, log }];
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

/** Groups by what is believed of their likeliest fault alone. */
export const likeliestGroups = (groups: readonly Group[]): Group[] =>
  groups.toSorted(
    (a, b) => b.log + Math.log(b.members[0]!.prior) - (a.log + Math.log(a.members[0]!.prior)),
  );

/**
 * Pairs of groups worth simulating, likeliest first. Of two groups it is estimated what both
 * together answer: at a point that one of them leaves sound the other rules. Every
 * observation must be explained by one of them or be a misreading: the candidates of de Kleer
 * and Williams, "Diagnosing Multiple Faults" (1987), found by scoring all pairs instead of by
 * conflicts.
 * @param predicted as for `groupedFaults`.
 */
export function pairCandidates(
  groups: readonly Group[],
  evidence: readonly Evidence[],
  predicted: readonly Uint8Array[],
): GroupPair[] {
  const pairs: GroupPair[] = [];
  for (const [i, a] of groups.entries()) {
    for (const b of groups.slice(i)) {
      const first = twos(a.members, b.members, 1)[0];
      if (!first) continue;
      // Where `a` marks nothing, `b` rules.
      let score = b.log + Math.log(first[0].prior) + Math.log(first[1].prior);
      for (const at of a.marks)
        score += jointLog(evidence[at]!, predicted[at]!, a.at, b.at) - evidence[at]!.log[b.at]!;
      for (const at of b.marks) score += hiddenGain(evidence[at]!, predicted[at]!, a.at, b.at);
      pairs.push({ a, b, score });
    }
  }
  return pairs.sort((x, y) => y.score - x.score);
}

/** Where `a` marks: what both answer together. */
function jointLog({ log, agrees }: Evidence, codes: Uint8Array, a: number, b: number): number {
  const sound = codes.length - 1;
  if (codes[b] === codes[a]) return log[a]!;
  if (codes[b] === codes[sound]) return agrees[b] && !agrees[a] ? HIDDEN_LOG : log[a]!;
  return Math.max(log[a]!, log[b]!) + EITHER_LOG;
}

/** Where only `b` marks, and `a` may hide it. */
function hiddenGain({ log, agrees }: Evidence, codes: Uint8Array, a: number, b: number): number {
  const sound = codes.length - 1;
  if (codes[a] !== codes[sound] || agrees[b] || !agrees[a]) return 0;
  return HIDDEN_LOG - log[b]!;
}

/** Whether two faults can be in one circuit and need two repairs. */
export const canBeTogether = (a: Hypothesis, b: Hypothesis): boolean =>
  a.repairKey !== b.repairKey && compose(a.faults[0]!.edit, b.faults[0]!.edit);

/**
 * Twos of two groups that can be in one circuit and need two repairs, up to `most`, the
 * likeliest of each group first.
 */
export function twos(
  as: readonly Hypothesis[],
  bs: readonly Hypothesis[],
  most: number,
): [Hypothesis, Hypothesis][] {
  const found: [Hypothesis, Hypothesis][] = [];
  // By the sum of both places, so that the likeliest of each come first.
  for (let sum = 0; sum < as.length + bs.length - 1 && found.length < most; sum++) {
    for (let i = Math.max(0, sum - bs.length + 1); i <= Math.min(sum, as.length - 1); i++) {
      const [a, b] = [as[i]!, bs[sum - i]!];
      if (as === bs && i >= sum - i) continue;
      if (!canBeTogether(a, b)) continue;
      found.push([a, b]);
      if (found.length === most) break;
    }
  }
  return found;
}
