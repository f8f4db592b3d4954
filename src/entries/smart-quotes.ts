/**
 * Typographic quotation marks in the place of a language's own. Word processors and telephones
 * write them unasked; YAML, MDX and spreadsheets take them for letters.
 */

const DOUBLE = '“”„‟';
const SINGLE = '‘’‚‛';

/**
 * What stands between two typographic quotation marks that hold the whole of a text, or behind
 * one that is not closed in it; undefined where there is nothing of the kind. A text that
 * begins with a quotation or an apostrophe and goes on after it is left alone.
 */
export function insideSmartQuotes(text: string): string | undefined {
  if (text === '') return undefined;
  const first = text[0]!;
  const last = text.at(-1)!;
  const inner = text.slice(1, -1);
  for (const marks of [DOUBLE, SINGLE]) {
    if (!marks.includes(first)) continue;
    const within = [...inner].some((sign) => marks.includes(sign));
    if (text.length > 1 && marks.includes(last) && (marks === SINGLE || !within)) return inner;
    // An apostrophe may begin a word; a double mark that nothing closes was meant to quote.
    if (marks === DOUBLE && !within) return text.slice(1);
  }
  return undefined;
}

/** Any typographic quotation mark. */
export const SMART_QUOTE: RegExp = new RegExp(`[${DOUBLE}${SINGLE}]`);
