// The file rather than its room's door: the door reads files, and this runs in the browser.
import { editDistance } from '../entries/nearest.ts';
import { stemOf } from './meaning.ts';
import { fold } from './text.ts';

/** A query with words put right. */
export interface Correction {
  readonly query: string;
  /** The words changed: as typed, as put right. */
  readonly changes: readonly (readonly [typed: string, meant: string])[];
}

/** Shorter words are codes, abbreviations and terminal names: never put right. */
export const SHORTEST_CORRECTED = 5;
/** Words from this length on may be two edits away. */
const LONG = 8;

/**
 * Puts right the words of a query that no page holds, from the words the pages hold. Codes
 * (E1, SL, W2, anything with a digit) and words under five letters stay as they are.
 * @param words the pages' words, the most used first
 * @param typing whether the last word may be the beginning of a longer one
 * @returns undefined when there is nothing to put right, or nothing near it
 */
export function correct(
  query: string,
  words: readonly string[],
  typing = false,
): Correction | undefined {
  const parts = query.split(/(\s+)/);
  const last = parts.findLastIndex((part) => part.trim() !== '');
  const changes: [string, string][] = [];
  const corrected = parts.map((part, at) => {
    const meant = meantBy(part, words, typing && at === last);
    if (meant === undefined) return part;
    changes.push([part, meant]);
    return meant;
  });
  return changes.length > 0 ? { query: corrected.join(''), changes } : undefined;
}

function meantBy(typed: string, words: readonly string[], typing: boolean): string | undefined {
  const word = fold(typed);
  if (word.length < SHORTEST_CORRECTED || !/^\p{L}+$/u.test(word)) return undefined;
  const stem = stemOf(word);
  if (words.some((known) => known.startsWith(word) || stemOf(known) === stem)) return undefined;
  const limit = word.length < LONG ? 1 : 2;
  let best: { known: string; distance: number } | undefined;
  for (const known of words) {
    // The first letter is seldom mistyped, and another makes another word: a mower is no power.
    if (known[0] !== word[0]) continue;
    const distance = distanceTo(word, known, limit, typing);
    if (distance <= limit && distance < (best?.distance ?? Infinity)) best = { known, distance };
  }
  return best?.known;
}

/** Edits to a word, or to the beginning of one that is still being typed; Infinity past the limit. */
function distanceTo(word: string, known: string, limit: number, typing: boolean): number {
  const gap = known.length - word.length;
  if (gap < -limit || (gap > limit && !typing)) return Infinity;
  let least = gap <= limit ? editDistance(word, known) : Infinity;
  if (typing)
    for (let length = word.length - limit; length <= word.length + limit; length++)
      if (length < known.length)
        least = Math.min(least, editDistance(word, known.slice(0, length)));
  return least;
}
