import { mdxToMdast } from 'satteri';
import { safetyProblems } from './body-safety.ts';
import { type BodyTag, readTag } from './body-tags.ts';
import { makeProblem } from './problem.ts';
import { SMART_QUOTE } from './smart-quotes.ts';
import { placeAt } from './source.ts';
import type { Place, Problem, SourceText } from './types.ts';

/** What this room needs of a Markdown syntax tree. */
interface TreeNode {
  readonly type: string;
  readonly name?: string | null;
  readonly value?: string;
  readonly url?: string;
  readonly attributes?: Parameters<typeof readTag>[1]['attributes'];
  readonly position?: { readonly start: { readonly line: number; readonly column: number } };
  readonly children?: readonly TreeNode[];
}

/** An entry's body as read: what is wrong with it, and the components it names. */
export interface Body {
  readonly problems: readonly Problem[];
  /** Components in order of place; plain HTML tags do not count as components. */
  readonly tags: readonly BodyTag[];
}

/** The parser's own words: `line:column: what is wrong (rule)`. */
const PARSER_MESSAGE = /^(\d+):(\d+): ([\s\S]*?)(?: \([a-z-]+:[a-z-]+\))?$/;

/**
 * Parses an entry's body with the compiler that builds the pages, and refuses programs in
 * it: a body is prose, and everything computed comes from the frontmatter.
 */
export function readBody(source: SourceText, body: string, bodyOffset: number): Body {
  // Blank lines in place of the frontmatter make the parser count as the file does.
  const above = '\n'.repeat(source.positionAt(bodyOffset).line - 1);
  let tree: TreeNode;
  try {
    tree = mdxToMdast(above + body, { features: { frontmatter: false } }) as TreeNode;
  } catch (error) {
    return { problems: [syntaxProblem(source, bodyOffset, error)], tags: [] };
  }
  return {
    problems: safetyProblems(tree, (node) => placeOf(source, node as TreeNode)),
    tags: tagsIn(source, tree),
  };
}

function syntaxProblem(source: SourceText, bodyOffset: number, error: unknown): Problem {
  const said = error instanceof Error ? error.message : String(error);
  const [, line, column, what] = PARSER_MESSAGE.exec(said) ?? [];
  const place =
    line === undefined || column === undefined
      ? placeAt(source, bodyOffset)
      : { source, position: { line: Number(line), column: Number(column) } };
  const curly = smartQuoteFrom(place);
  if (curly)
    return makeProblem(
      'smart-quotes',
      curly,
      [],
      'typographic quotation marks hold no attribute; MDX knows only straight ones, " and \'',
    );
  return makeProblem('body-syntax', place, [], `the body is not MDX: ${plainly(what ?? said)}`);
}

/** The parser's messages that authors meet most, in words that say what to do. */
function plainly(said: string): string {
  if (/parse (?:expression|with oxc)/.test(said))
    return 'what stands in braces is a program, and a body has none; a brace in prose is \\{';
  const [, open] = /^Expected a closing tag for `<(\w+)>`/.exec(said) ?? [];
  if (open !== undefined)
    return isComponent(open)
      ? `<${open}> is not closed; it ends with />, as in <${open} … />`
      : `<${open}> is not closed; it wants </${open}> after it`;
  const plain = said.replace(' with oxc', '');
  return plain.charAt(0).toLowerCase() + plain.slice(1);
}

/** The first typographic quotation mark of the tag that begins at a place. */
function smartQuoteFrom({ source, position: { line, column } }: Place): Place | undefined {
  const rest = source.lines.slice(line - 1);
  const tag = /^<[^>]*/.exec([rest[0]?.slice(column - 1), ...rest.slice(1)].join('\n'))?.[0] ?? '';
  const before = tag.slice(0, tag.search(SMART_QUOTE)).split('\n');
  if (!SMART_QUOTE.test(tag)) return undefined;
  const last = before.at(-1)!.length;
  return {
    source,
    position: {
      line: line + before.length - 1,
      column: before.length === 1 ? column + last : last + 1,
    },
  };
}

const placeOf = (source: SourceText, { position }: TreeNode) => {
  const { line, column } = position?.start ?? { line: 1, column: 1 };
  return { source, position: { line, column } };
};

/** A tag names a component when it begins with a capital letter or holds a full stop. */
const isComponent = (name: string) => /^[A-Z]|\./.test(name);

function tagsIn(source: SourceText, node: TreeNode): BodyTag[] {
  const { type, name, attributes = [], children = [] } = node;
  const own =
    type.startsWith('mdxJsx') && name && isComponent(name)
      ? [readTag(placeOf(source, node), { name, attributes })]
      : [];
  return [...own, ...children.flatMap((child) => tagsIn(source, child))];
}
