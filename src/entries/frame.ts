import type { Place } from './types.ts';

/** Lines shown before and after the one at fault. */
const AROUND = 2;
/** Longer lines are cut, so that a frame stays narrow. */
const WIDEST = 96;

/**
 * The lines around a place, numbered, the place marked with a caret beneath it.
 * Empty for a file without text.
 */
export function codeFrame({ source, position }: Place): string {
  const { lines } = source;
  if (lines.every((line) => line.trim() === '')) return '';
  const first = Math.max(1, position.line - AROUND);
  const last = Math.min(lines.length, position.line + AROUND);
  // The last line of a file that ends in a line break is empty and tells nothing.
  const shownLast =
    last === lines.length && last > position.line && !lines[last - 1] ? last - 1 : last;
  const width = String(shownLast).length;
  const cut = Math.max(0, position.column - WIDEST + 16);
  const frame: string[] = [];
  for (let number = first; number <= shownLast; number++) {
    const at = number === position.line;
    const label = `${at ? '>' : ' '} ${String(number).padStart(width)} |`;
    frame.push(`${label} ${shorten(lines[number - 1] ?? '', at ? cut : 0)}`.trimEnd());
    if (at) {
      const indent = ' '.repeat(position.column - 1 - cut + (cut > 0 ? 1 : 0));
      frame.push(`${' '.repeat(width + 2)} | ${indent}^`);
    }
  }
  return frame.join('\n');
}

function shorten(line: string, cut: number): string {
  const plain = line.replaceAll('\t', ' ').slice(cut);
  const end = plain.length > WIDEST ? `${plain.slice(0, WIDEST)}…` : plain;
  return cut > 0 ? `…${end}` : end;
}
