/** Seed of what the benchmarks pick at random: every run picks the same. */
export const SEED = 1;

/** The middle of some numbers, or the mean of the two in the middle. */
export function median(values: readonly number[]): number {
  if (values.length === 0) throw new RangeError('a median needs at least one value; got none');
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** Lines of columns: the first to the left, the others, numbers, to the right. */
export function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = heads.map((head, i) => Math.max(head.length, ...rows.map((r) => r[i]!.length)));
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!)))
      .join('  ');
  const rule = widths.map((width) => '─'.repeat(width)).join('  ');
  return [line(heads), rule, ...rows.map(line)].join('\n');
}
