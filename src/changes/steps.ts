import { likeness, nowAndWas, quoted, same } from './values.ts';

/** An ordered act of a procedure or a symptom: what it says, by field. */
export type Step = Readonly<Record<string, string | undefined>>;

/** What is otherwise of one step, with the step as it was and as it is. */
export interface StepChange {
  readonly words: string;
  readonly steps: readonly Step[];
  /** Fields that differ; every field that there is where a step came or went. */
  readonly fields: readonly string[];
}

/** What the fields of a step are called. */
const FIELDS: Readonly<Record<string, string>> = {
  do: 'the act',
  expect: 'what must be seen',
  why: 'the reason',
  caution: 'the caution',
  tells: 'what it tells',
  by: 'who does it',
};

/** Least likeness of two acts that are one act in other words. */
const SAME_ACT = 0.3;

/**
 * What changed in an ordered list of acts, a line a step: reworded, moved, added, taken out. A
 * step that only counts otherwise, because one came or went before it, is as it was.
 */
export function stepChanges(before: readonly Step[], after: readonly Step[]): StepChange[] {
  const pairs = pairsOf(before, after);
  const moved = movedIn(pairs.map(([was, now]) => [before.indexOf(was), after.indexOf(now)]));
  const changes: StepChange[] = [];
  for (const was of before)
    if (!pairs.some(([old]) => old === was))
      changes.push(change(`Step ${before.indexOf(was) + 1} taken out: ${quoted(was.do!)}`, was));
  for (const now of after) {
    const at = after.indexOf(now);
    const was = pairs.find(([, is]) => is === now)?.[0];
    if (!was) {
      const caution = now.caution ? `, with the caution ${quoted(now.caution)}` : '';
      changes.push(change(`New step ${at + 1}: ${quoted(now.do!)}${caution}`, now));
      continue;
    }
    const differing = Object.keys({ ...was, ...now }).filter((key) => !same(was[key], now[key]));
    const from = before.indexOf(was) + 1;
    const parts = differing.map((key) => `${FIELDS[key] ?? key} ${nowAndWas(now[key], was[key])}`);
    if (moved.has(at)) parts.unshift(`comes in another place, was step ${from}`);
    if (parts.length === 0) continue;
    const name = differing.includes('do') ? '' : ` ${quoted(now.do!)}`;
    changes.push({
      words: `Step ${at + 1}${name}: ${parts.join('; ')}`,
      steps: [was, now],
      fields: [...differing, ...(moved.has(at) ? ['order'] : [])],
    });
  }
  return changes;
}

const change = (words: string, step: Step): StepChange => ({
  words,
  steps: [step],
  fields: Object.keys(step).filter((key) => step[key] !== undefined),
});

/** Each step with the one it became: by its act, else the likest of those left. */
function pairsOf(before: readonly Step[], after: readonly Step[]): [Step, Step][] {
  const pairs: [Step, Step][] = [];
  const isFree = (step: Step) => !pairs.some((pair) => pair.includes(step));
  for (const was of before) {
    const now = after.find((one) => one.do === was.do && isFree(one));
    if (now) pairs.push([was, now]);
  }
  const likest = before
    .flatMap((was) =>
      after.map((now) => ({ was, now, score: likeness(was.do ?? '', now.do ?? '') })),
    )
    .filter(({ was, now, score }) => score >= SAME_ACT && isFree(was) && isFree(now))
    .toSorted((a, b) => b.score - a.score);
  for (const { was, now } of likest) if (isFree(was) && isFree(now)) pairs.push([was, now]);
  // Between two neighbours that stayed, one step for one is a step written anew.
  for (const was of before.filter(isFree)) {
    const now = after[before.indexOf(was)];
    if (now && isFree(now) && before.length === after.length) pairs.push([was, now]);
  }
  return pairs;
}

/** Places now of the fewest steps that must have moved for the rest to stand in their old order. */
function movedIn(pairs: readonly (readonly [was: number, now: number])[]): Set<number> {
  const inOrder = pairs.toSorted(([, a], [, b]) => a - b);
  const longest: number[][] = [];
  for (const [i, [was]] of inOrder.entries()) {
    const best = longest
      .filter((chain) => inOrder[chain.at(-1)!]![0] < was)
      .reduce<number[]>((a, b) => (b.length > a.length ? b : a), []);
    longest.push([...best, i]);
  }
  const kept = longest.reduce<number[]>((a, b) => (b.length > a.length ? b : a), []);
  return new Set(inOrder.filter((_, i) => !kept.includes(i)).map(([, now]) => now));
}
