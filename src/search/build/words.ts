import { SHORTEST_CORRECTED } from '../correct.ts';
import { TRADE_WORDS } from '../meaning.ts';
import { wordsOf } from '../text.ts';

/**
 * The words that mistyped ones are put right from: those of five letters or more in the text
 * of the pages, the most used first, then by letter.
 * @param pages HTML of the built pages; only their indexed part counts
 */
export function wordsIn(pages: Iterable<string>): string[] {
  const counts = new Map<string, number>();
  for (const page of pages)
    for (const word of wordsOf(textOf(page)))
      if (word.length >= SHORTEST_CORRECTED && /^\p{L}+$/u.test(word))
        counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts].sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1)).map(([word]) => word);
}

/** Those words, and what the trade and its customers say that no page holds. */
export const wordsKnownIn = (pages: Iterable<string>): string[] => [
  ...new Set([
    ...wordsIn(pages),
    ...TRADE_WORDS.filter((word) => word.length >= SHORTEST_CORRECTED && /^\p{L}+$/u.test(word)),
  ]),
];

/** The text between the tags of a page's indexed part, character references left out. */
function textOf(html: string): string {
  const [, indexed = ''] = /<main[^>]*data-pagefind-body[^>]*>(.*)<\/main>/s.exec(html) ?? [];
  return indexed
    .replaceAll(/<(script|style)\b.*?<\/\1>/gs, ' ')
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll(/&[#a-z0-9]+;/gi, ' ');
}
