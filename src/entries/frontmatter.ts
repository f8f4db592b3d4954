import { isMap, parseDocument } from 'yaml';
import { makeProblem } from './problem.ts';
import { placeAt, sourceText, topOf } from './source.ts';
import type { Places, Problem, SourceText } from './types.ts';
import { syntaxProblem } from './yaml-syntax.ts';
import { inspectTree, placesIn } from './yaml-tree.ts';

/** An entry's frontmatter as the author wrote it, before any schema. */
export interface Frontmatter {
  /** Plain values; absent when the YAML could not be read. */
  readonly data?: Readonly<Record<string, unknown>>;
  readonly places: Places;
  /** MDX after the frontmatter. */
  readonly body: string;
  /** Offset of the body from the start of the file. */
  readonly bodyOffset: number;
  readonly problems: readonly Problem[];
}

/** Three hyphens alone on a line. */
const FENCE = /^---[ \t]*\r?$/m;

/**
 * Splits a file at its two `---` lines and reads what lies between as YAML 1.2.
 * Every fault is a problem with its place in the file; nothing is thrown.
 */
export function readFrontmatter(source: SourceText, text: string): Frontmatter {
  const fail = (...problems: Problem[]): Frontmatter => ({
    places: placesIn(source, undefined, 0),
    body: '',
    bodyOffset: text.length,
    problems,
  });
  if (text.trim() === '')
    return fail(makeProblem('file-empty', topOf(source), [], 'the file is empty'));

  const opening = FENCE.exec(text);
  if (opening === null || opening.index !== 0) return fail(missing(source, text, opening));
  const start = afterLine(text, 0);
  const closing = FENCE.exec(text.slice(start));
  if (closing === null) {
    const message = 'the frontmatter that begins here has no closing --- line';
    return fail(makeProblem('frontmatter-unterminated', topOf(source), [], message));
  }
  const end = start + closing.index;
  const bodyOffset = afterLine(text, end);
  return {
    ...readYaml(source, text.slice(start, end), start),
    body: text.slice(bodyOffset),
    bodyOffset,
  };
}

const afterLine = (text: string, offset: number): number => {
  const at = text.indexOf('\n', offset);
  return at === -1 ? text.length : at + 1;
};

function missing(source: SourceText, text: string, fence: RegExpExecArray | null): Problem {
  const onlyBlank = fence !== null && text.slice(0, fence.index).trim() === '';
  const message = onlyBlank
    ? 'blank lines stand before the frontmatter; its --- is the first line of the file'
    : 'the file does not begin with frontmatter; its first line is ---';
  const place = onlyBlank ? placeAt(source, fence.index) : topOf(source);
  return makeProblem('frontmatter-missing', place, [], message, {
    found: source.lines[0]?.trim() || 'a blank line',
  });
}

/** Reads a block of YAML that begins at an offset of its file. */
export function readYaml(
  source: SourceText,
  block: string,
  offset: number,
): Pick<Frontmatter, 'data' | 'places' | 'problems'> {
  const at = (within: number) => placeAt(source, offset + within);
  // Repeated keys are found in the tree, where the first use can be named beside the second.
  const document = parseDocument(block, { uniqueKeys: false, prettyErrors: false });
  const places = placesIn(source, document.contents, offset);
  const syntax = syntaxProblem(document, block, at);
  if (syntax) return { places, problems: [syntax] };
  const { problems, plain } = inspectTree(document, block, at);
  if (!plain) return { places, problems };
  if (!isMap(document.contents)) {
    const empty = document.contents === null || document.toJS() === null;
    const place = empty ? topOf(source) : at(document.contents?.range?.[0] ?? 0);
    const message = empty
      ? 'the frontmatter is empty'
      : 'the frontmatter is not a list of keys and values, as in title: Room control';
    return {
      places,
      problems: [...problems, makeProblem('frontmatter-not-keys', place, [], message)],
    };
  }
  return { data: document.toJS() as Record<string, unknown>, places, problems };
}

/** Plain values of an entry's frontmatter; empty where it cannot be read. */
export const frontmatterOf = (text: string): Readonly<Record<string, unknown>> =>
  readFrontmatter(sourceText('', text), text).data ?? {};
