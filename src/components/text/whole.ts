/** Longest word, in letters, that is kept on one line: it fits one with letters twice as large. */
const MOST_LETTERS = 13;

/** A text in pieces, in order: those that stay on one line, and what stands between them. */
export function wholeWords(text: string): { readonly text: string; readonly isWhole: boolean }[] {
  return text
    .split(/((?<![\w-])\w+(?:-\w+)+(?![\w-]))/)
    .filter(Boolean)
    .map((piece) => ({
      text: piece,
      isWhole: /^\w+(?:-\w+)+$/.test(piece) && piece.length <= MOST_LETTERS,
    }));
}
