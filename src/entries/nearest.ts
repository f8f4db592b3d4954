/**
 * The allowed word nearest to what was written, when it is near enough that the author
 * probably meant it: at most a third of its letters differ, or only case and separators do.
 */
export function nearest(found: string, allowed: Iterable<string>): string | undefined {
  const plain = simplify(found);
  let best: { word: string; distance: number } | undefined;
  for (const word of allowed) {
    if (word === found) continue;
    const other = simplify(word);
    const limit = Math.floor(Math.max(found.length, word.length) / 3);
    // No fewer edits than letters too many: a long text is not compared letter by letter.
    if (Math.abs(plain.length - other.length) > limit) continue;
    const distance = editDistance(plain, other);
    if (distance <= limit && distance < (best?.distance ?? Infinity)) best = { word, distance };
  }
  return best?.word;
}

const simplify = (word: string) =>
  word
    .toLowerCase()
    .replaceAll(/[\s_-]+/g, ' ')
    .trim();

/**
 * Edits that turn one word into another: letters added, dropped, changed, or two
 * neighbours exchanged (optimal string alignment).
 */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let least = Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, before[j - 2]! + 1);
      next.push(least);
    }
    before = row;
    row = next;
  }
  return row[b.length]!;
}
