import type { Place, SourceText } from './types.ts';

/** Keeps a file's text with its lines, so that offsets become positions. */
export function sourceText(file: string, text: string): SourceText {
  const starts = [0];
  for (let i = text.indexOf('\n'); i !== -1; i = text.indexOf('\n', i + 1)) starts.push(i + 1);
  const lines = text.split('\n').map((line) => line.replace(/\r$/, ''));
  return {
    file,
    lines,
    positionAt(offset) {
      let low = 0;
      let high = starts.length - 1;
      while (low < high) {
        const middle = Math.ceil((low + high) / 2);
        if (starts[middle]! <= offset) low = middle;
        else high = middle - 1;
      }
      return { line: low + 1, column: offset - starts[low]! + 1 };
    },
  };
}

/** The place at an offset of a text. */
export const placeAt = (source: SourceText, offset: number): Place => ({
  source,
  position: source.positionAt(offset),
});

/** The first character of a file: where problems of the whole file stand. */
export const topOf = (source: SourceText): Place => placeAt(source, 0);

/** A file as a whole, where none of its text is to be shown. */
export const wholeFile = (file: string): Place => topOf(sourceText(file, ''));
