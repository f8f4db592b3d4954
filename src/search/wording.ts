import type { Correction } from './correct.ts';
import { type Found, MOST_LETTERS } from './find.ts';
import { spaced } from './text.ts';

/** What is said above the results: how many, what was put right, or that nothing answers it. */
export function summaryLine(query: string, found: Found): string {
  const { correction, results, nearest } = found;
  const wanted = query.trim();
  if (wanted === '') return results.length > 0 ? count(results.length) : '';
  if (wanted.length > MOST_LETTERS)
    return `That is ${wanted.length.toLocaleString('en-GB')} letters; a search has ${MOST_LETTERS} at most.`;
  if (results.length === 0) {
    if (nearest.length === 0) return `Nothing for “${wanted}”.`;
    return `Nothing for “${wanted}”. Nearest:`;
  }
  return correction
    ? `${correctionLine(correction)} ${count(results.length)}`
    : count(results.length);
}

function correctionLine({ changes }: Correction): string {
  const typed = changes.map(([word]) => `“${word}”`).join(', ');
  const meant = changes.map(([, word]) => `“${word}”`).join(', ');
  return `No entry holds ${typed}; shown for ${meant}.`;
}

const count = (n: number) => (n === 1 ? '1 result.' : `${n} results.`);

/** Searches kept at most. */
const MOST_KEPT = 6;

/** The recent searches with one more at their head; the same words are kept once. */
export function withSearch(recent: readonly string[], query: string): string[] {
  const asked = query.trim();
  if (asked === '' || asked.length > MOST_LETTERS) return [...recent];
  const others = recent.filter((other) => spaced(other) !== spaced(asked));
  return [asked, ...others].slice(0, MOST_KEPT);
}
