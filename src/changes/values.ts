/** Letters of a text that a line quotes; the page itself says the rest. */
const MOST_QUOTED = 260;

/** A text in quotation marks, cut where it is long. */
export function quoted(text: string): string {
  const line = text.replaceAll(/\s+/g, ' ').trim();
  return `“${line.length > MOST_QUOTED ? `${line.slice(0, MOST_QUOTED).trimEnd()} …` : line}”`;
}

/** Any value of an entry as a person reads it. */
export function shown(value: unknown): string {
  if (value === undefined || value === null) return 'none';
  if (typeof value === 'string') return quoted(value);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) return value.length === 0 ? 'none' : value.map(plain).join(', ');
  return plain(value);
}

function plain(value: unknown): string {
  if (Array.isArray(value)) return value.map(plain).join(', ');
  if (typeof value !== 'object' || value === null) return String(value);
  return Object.entries(value)
    .map(([key, inner]) => `${key} ${plain(inner)}`)
    .join(', ');
}

/** Plain data with fields in any order; what is absent equals what is undefined or null. */
export function same(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null)
    return (a ?? null) === (b ?? null);
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].every((key) => same(a[key as keyof typeof a], b[key as keyof typeof b]));
}

/** `now X, was Y`. */
export const nowAndWas = (now: unknown, was: unknown): string =>
  `now ${shown(now)}, was ${shown(was)}`;

/** A pair of what stood and what stands in its place; one of them absent where nothing does. */
export interface Paired<T> {
  readonly was?: T;
  readonly now?: T;
}

/** Share of the words that two texts have in common, from 0 to 1. */
export function likeness(a: string, b: string): number {
  const [x, y] = [wordsOf(a), wordsOf(b)];
  const shared = [...x].filter((word) => y.has(word)).length;
  return (2 * shared) / Math.max(1, x.size + y.size);
}

const wordsOf = (text: string) => new Set(text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []);

/** Least likeness of two texts that are the same text in other words. */
const REWORDED = 0.4;

/**
 * Two lists of texts in any order, what is in both left out: each that went with the likest that
 * came, where they are like enough.
 */
export function textPairs(before: readonly string[], after: readonly string[]): Paired<string>[] {
  const gone = before.filter((one) => !after.includes(one));
  const come = after.filter((one) => !before.includes(one));
  const likest = gone
    .flatMap((was) => come.map((now) => ({ was, now, score: likeness(was, now) })))
    .filter(({ score }) => score >= REWORDED)
    .toSorted((a, b) => b.score - a.score);
  const pairs: { was: string; now: string }[] = [];
  for (const { was, now } of likest)
    if (!pairs.some((pair) => pair.was === was || pair.now === now)) pairs.push({ was, now });
  return [
    ...pairs,
    ...gone.filter((was) => !pairs.some((pair) => pair.was === was)).map((was) => ({ was })),
    ...come.filter((now) => !pairs.some((pair) => pair.now === now)).map((now) => ({ now })),
  ];
}
