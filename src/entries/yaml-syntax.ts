import { type Document, type Scalar, visit, type YAMLError } from 'yaml';
import { makeProblem } from './problem.ts';
import { SMART_QUOTE } from './smart-quotes.ts';
import type { Place, Problem } from './types.ts';
import { tooDeep } from './yaml-tree.ts';

/** The parser's messages that authors meet most, in words that say what to do. */
const PLAINLY: readonly (readonly [RegExp, (found: string) => string])[] = [
  [/^Nested mappings/, () => 'a text with “: ” in it stands in quotation marks'],
  [/^Implicit keys need to be on a single line/, () => 'this line is not key: value'],
  [/^Implicit map keys need to be followed/, () => 'this line is not key: value'],
  [/^All mapping items must start/, () => 'keys of one level begin in the same column'],
  [/^Tabs are not allowed/i, () => 'lines are indented with spaces, not tabs'],
  [
    /^Plain value cannot start with .* (\S)$/,
    (sign) => `a text that begins with ${sign} stands in quotation marks`,
  ],
  [/^Unexpected flow-\w+-end .*"(.)"$/, (sign) => `this ${sign} closes nothing`],
  [/^Unexpected block-seq-ind/, () => 'a list of lines with - begins on a line of its own'],
  [
    /^A block sequence may not be used as an implicit map key/,
    () => 'the items of one list begin in the same column',
  ],
  [/^Unexpected scalar at node end/, () => 'the value ends before this'],
  [
    /^Invalid escape sequence (\S+)/,
    (sign) => `${sign} means nothing in double quotation marks; use single ones`,
  ],
  [/^Source contains multiple documents/, () => 'the YAML ends before this line'],
];

/**
 * The first syntax error of the frontmatter, if there is one: what follows it is guesswork.
 * @param at the place of an offset within the block.
 */
export function syntaxProblem(
  document: Document.Parsed,
  block: string,
  at: (offset: number) => Place,
): Problem | undefined {
  const { errors } = document;
  // The parser recurses, and where its stack ends differs from machine to machine.
  if (errors.some(({ code }) => code === 'RESOURCE_EXHAUSTION')) return tooDeep(at(0));
  const [error] = errors;
  if (!error) return undefined;
  const { offset, what } =
    oddSign(block) ??
    commentWithin(error, block) ??
    unclosed(error, document, block) ??
    misindented(errors, block) ??
    listAbove(error, block) ??
    commaLeftOut(error, block) ??
    withoutRoom(error, block) ??
    plainly(error);
  return makeProblem('yaml-syntax', at(offset), [], `the frontmatter is not YAML: ${what}`);
}

interface Fault {
  readonly offset: number;
  readonly what: string;
}

function plainly({ message, pos }: YAMLError): Fault {
  for (const [pattern, words] of PLAINLY) {
    const match = pattern.exec(message);
    if (match) return { offset: pos[0], what: words(match[1] ?? '') };
  }
  return { offset: pos[0], what: message.charAt(0).toLowerCase() + message.slice(1) };
}

/**
 * A line that goes on where the line above has a value already: the parser takes both for one
 * key and names the upper one, and the lower is the one to look at.
 */
function misindented(errors: readonly YAMLError[], block: string): Fault | undefined {
  const key = errors.find(({ message }) => message.startsWith('Implicit keys need to be on a'));
  if (!key) return undefined;
  const [start, end] = key.pos;
  const nested = errors[0]?.message.startsWith('Nested mappings') && errors[0].pos[0] === start;
  const line = block.lastIndexOf('\n', start - 1) + 1;
  const inList = /^\s*(- +)+$/.test(block.slice(line, start));
  if (!nested && !inList) return undefined;
  const below = block.lastIndexOf('\n', end - 1) + 1;
  const offset = below + /^\s*/.exec(block.slice(below))![0].length;
  return { offset, what: DEEPER };
}

const DEEPER =
  'this line is indented under a value; keys of one level begin in the same column, and a text over several lines with “: ” in it stands in quotation marks';

/** A key below a line that begins with `-`: the list is the slip, and the parser stops behind it. */
function listAbove({ message, pos }: YAMLError, block: string): Fault | undefined {
  if (!message.startsWith('All mapping items must start')) return undefined;
  const line = block.lastIndexOf('\n', pos[0] - 1) + 1;
  const above = block.lastIndexOf('\n', line - 2) + 1;
  const [, indent] = /^( *)- /.exec(block.slice(above, line)) ?? [];
  if (indent === undefined) return undefined;
  const what =
    'a list begins here with -, and the line below is a key; keys stand in one column, without -';
  return { offset: above + indent.length, what };
}

/** Spaces and colons that look like those of the keyboard and are none: they come with pasted text. */
const ODD_SIGN =
  /^[ -]*(?<indent>[\u00a0\u2000-\u200b\u202f\u3000])|^\s*(?:- )?[A-Za-z][\w .-]*:(?<room>[\u00a0\u2000-\u200b\u202f\u3000])|^\s*(?:- )?[A-Za-z][\w .-]*(?<colon>[：﹕∶꞉])/mu;

function oddSign(block: string): Fault | undefined {
  const match = ODD_SIGN.exec(block);
  if (!match) return undefined;
  const { colon, indent, room } = match.groups!;
  const sign = (colon ?? indent ?? room)!;
  const name = `U+${sign.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;
  const offset = match.index + match[0].length - sign.length;
  return colon === undefined
    ? { offset, what: `this space is not that of the keyboard (${name}, pasted); type it anew` }
    : { offset, what: `this colon is not that of the keyboard (${name}); type : and a space` };
}

/** Within braces a key that nothing parts from the value before it. */
function commaLeftOut({ message, pos }: YAMLError, block: string): Fault | undefined {
  if (!/within flow collections$|^Missing , /.test(message)) return undefined;
  const [line = ''] = block.slice(pos[0]).split('\n', 1);
  const [before, key] = /^.*?\s(?=([A-Za-z][\w.-]*): )/.exec(line) ?? [];
  return before === undefined
    ? undefined
    : { offset: pos[0] + before.length, what: `a comma is missing before ${key}` };
}

/** `length:15` is one text to YAML. */
function withoutRoom({ message, pos }: YAMLError, block: string): Fault | undefined {
  if (!/^Implicit (map )?keys need to be/.test(message)) return undefined;
  const line = block.lastIndexOf('\n', pos[0]) + 1;
  const [, key, value] = /^\s*(?:- )?([A-Za-z][\w -]*):([^\s/].*)/.exec(block.slice(line)) ?? [];
  if (key === undefined) return undefined;
  return { offset: pos[0], what: `there is no space after the colon; write ${key}: ${value}` };
}

/** A `#` within brackets begins a comment, which swallows what would have closed them. */
function commentWithin({ message, pos }: YAMLError, block: string): Fault | undefined {
  if (!/end with a [\]}]/.test(message)) return undefined;
  const open = openBracket(
    block.slice(0, pos[0]).replaceAll(/ #.*/g, (comment) => ' '.repeat(comment.length)),
  );
  if (open === -1) return undefined;
  const [line = ''] = block.slice(open).split('\n', 1);
  const [, before] = /^((?:[^"'#]|"[^"]*"|'[^']*')*\s)#/.exec(line) ?? [];
  if (before === undefined) return undefined;
  const what =
    'what follows a # is a comment, and nothing closes the bracket before it; a text that begins with # stands in quotation marks';
  return { offset: open + before.length, what };
}

/** A bracket or quotation mark left open: the parser stops far behind the one to look at. */
function unclosed(
  { message, pos }: YAMLError,
  document: Document,
  block: string,
): Fault | undefined {
  const [, closing] = /end with a ([\]}])/.exec(message) ?? [];
  if (closing !== undefined) {
    const offset = openBracket(block.slice(0, pos[0]));
    return offset === -1
      ? undefined
      : { offset, what: `this ${block[offset]} has no closing ${closing}` };
  }
  if (!message.startsWith('Missing closing')) return undefined;
  let offset: number | undefined;
  visit(document, {
    Scalar(_, { type, range }: Scalar) {
      if (type?.startsWith('QUOTE') && range && range[1] >= pos[0]) offset = range[0];
    },
  });
  if (offset === undefined) return undefined;
  const [line = ''] = block.slice(offset).split('\n', 1);
  const what = SMART_QUOTE.test(line)
    ? `this ${block[offset]} is closed by a typographic quotation mark; YAML knows only straight ones`
    : 'this quotation mark is not closed';
  return { offset, what };
}

/** Offset of the last bracket in a text that nothing after it closes; −1 if there is none. */
function openBracket(text: string): number {
  let depth = 0;
  for (let i = text.length - 1; i >= 0; i--) {
    if (']}'.includes(text[i]!)) depth++;
    else if ('[{'.includes(text[i]!) && depth-- === 0) return i;
  }
  return -1;
}
