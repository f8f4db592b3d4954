import { makeProblem } from './problem.ts';
import { placeAt, sourceText, topOf } from './source.ts';
import type { Problem, SourceText } from './types.ts';

/** A file's text and what is wrong with its encoding. */
export interface ReadText {
  readonly source: SourceText;
  /** Absent when the bytes are no text. */
  readonly text?: string;
  readonly problems: readonly Problem[];
}

/** U+FFFD, which a lenient decoder puts where bytes are not UTF-8. */
const REPLACEMENT = '\uFFFD';

/**
 * Reads a content file's bytes as UTF-8 text. One form only is accepted, so that the same
 * entry is the same bytes on every machine: no byte order mark, lines that end in LF.
 */
export function readText(file: string, bytes: Uint8Array): ReadText {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const lenient = new TextDecoder('utf-8').decode(bytes);
    const source = sourceText(file, lenient);
    const place = placeAt(source, Math.max(0, lenient.indexOf(REPLACEMENT)));
    return {
      source,
      problems: [makeProblem('file-not-utf8', place, [], 'a byte here is not UTF-8 text')],
    };
  }
  const source = sourceText(file, text);
  const problems: Problem[] = [];
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) {
    problems.push(
      makeProblem(
        'file-byte-order-mark',
        topOf(source),
        [],
        'the file begins with a byte order mark',
      ),
    );
  }
  const carriageReturn = text.indexOf('\r');
  if (carriageReturn !== -1) {
    const place = placeAt(source, carriageReturn);
    problems.push(
      makeProblem('file-line-endings', place, [], 'a line ends in CR; lines end in LF alone'),
    );
  }
  return { source, text, problems };
}
