import type { Network } from '../circuit/index.ts';
import { type Minutes, minutes } from '../units/index.ts';
import type { Signature } from './signatures.ts';
import {
  baseMinutes,
  modeMinutes,
  openingMinutes,
  type Test,
  type TestAnswer,
} from './tests/index.ts';

/** One answer to a first test, and what it leaves. */
export interface FirstAnswer {
  readonly answer: TestAnswer;
  /** How likely among the causes, per cent. */
  readonly share: number;
  /** Keys of the repairs it leaves, likeliest first. */
  readonly repairs: readonly string[];
}

/** The test to begin with. */
export interface FirstTest {
  readonly test: Test;
  /** What the sound system answers. */
  readonly expected: TestAnswer;
  /** Change of mode, opening and reading together, minutes. */
  readonly minutes: Minutes;
  readonly answers: readonly FirstAnswer[];
}

/**
 * The test that leaves the least expected time: its own minutes, and for what its answers
 * leave undecided among the repairs, in bits, the mean minutes of a test that divides these
 * causes, as if each such test settled one bit. Null where no test divides them.
 * @param from mode in which the engineer stands, every cover still on.
 */
export function firstTestOf(
  network: Network,
  tests: readonly Test[],
  sound: readonly TestAnswer[],
  causes: readonly Signature[],
  from: string,
): FirstTest | null {
  const whole = undecided(causes);
  const useful = tests.flatMap((test, i) => {
    const classes = Map.groupBy(causes, ({ answers }) => answers[i]!);
    const left = [...classes.values()].reduce((sum, c) => sum + undecided(c), 0);
    const cost = minutesOf(network, test, from);
    return whole - left > 1e-9 ? [{ test, i, classes, left, cost }] : [];
  });
  const perBit = useful.reduce((sum, { cost }) => sum + cost, 0) / useful.length;
  const total = weightOf(causes);
  const timeLeft = ({ cost, left }: (typeof useful)[number]) => cost + (perBit * left) / total;
  const [best] = useful.toSorted((a, b) => timeLeft(a) - timeLeft(b) || a.i - b.i);
  if (!best) return null;
  return {
    test: best.test,
    expected: sound[best.i]!,
    minutes: best.cost,
    answers: [...best.classes]
      .map(([answer, left]) => ({
        answer,
        share: (100 * weightOf(left)) / total,
        repairs: [...byRepair(left)].toSorted((a, b) => b[1] - a[1]).map(([key]) => key),
      }))
      .toSorted((a, b) => b.share - a.share),
  };
}

const weightOf = (causes: readonly Signature[]) =>
  causes.reduce((sum, { fault }) => sum + fault.weight, 0);

/** Weight of each repair. */
function byRepair(causes: readonly Signature[]): Map<string, number> {
  const weights = new Map<string, number>();
  for (const { fault } of causes)
    weights.set(fault.repairKey, (weights.get(fault.repairKey) ?? 0) + fault.weight);
  return weights;
}

/** Entropy over the repairs, bits, times the weight of the causes. */
function undecided(causes: readonly Signature[]): number {
  const total = weightOf(causes);
  return [...byRepair(causes).values()].reduce((sum, w) => sum - w * Math.log2(w / total), 0);
}

/** Time to take a test first of all, minutes. */
const minutesOf = (network: Network, test: Test, from: string): Minutes =>
  minutesFrom(network, { mode: from, opened: new Set() }, test);
