import { mdxToMdast } from 'satteri';
import { makeProblem } from './problem.ts';
import { placeAt } from './source.ts';
import type { Problem, SourceText } from './types.ts';

/** What this room needs of a Markdown syntax tree. */
interface TreeNode {
  readonly type: string;
  readonly name?: string | null;
  readonly position?: { readonly start: { readonly line: number; readonly column: number } };
  readonly children?: readonly TreeNode[];
}

/** The parser's own words: `line:column: what is wrong (rule)`. */
const PARSER_MESSAGE = /^(\d+):(\d+): ([\s\S]*?)(?: \([a-z-]+:[a-z-]+\))?$/;

/**
 * Parses an entry's body with the compiler that builds the pages, and refuses programs in
 * it: a body is prose, and everything computed comes from the frontmatter.
 */
export function bodyProblems(source: SourceText, body: string, bodyOffset: number): Problem[] {
  // Blank lines in place of the frontmatter make the parser count as the file does.
  const above = '\n'.repeat(source.positionAt(bodyOffset).line - 1);
  let tree: TreeNode;
  try {
    tree = mdxToMdast(above + body, { features: { frontmatter: false } }) as TreeNode;
  } catch (error) {
    return [syntaxProblem(source, bodyOffset, error)];
  }
  return programsIn(source, tree);
}

function syntaxProblem(source: SourceText, bodyOffset: number, error: unknown): Problem {
  const said = error instanceof Error ? error.message : String(error);
  const [, line, column, what] = PARSER_MESSAGE.exec(said) ?? [];
  const place =
    line === undefined || column === undefined
      ? placeAt(source, bodyOffset)
      : { source, position: { line: Number(line), column: Number(column) } };
  const plain = (what ?? said).replace(' with oxc', '');
  const message = `the body is not MDX: ${plain.charAt(0).toLowerCase()}${plain.slice(1)}`;
  return makeProblem('body-syntax', place, [], message);
}

function programsIn(source: SourceText, node: TreeNode): Problem[] {
  const { line, column } = node.position?.start ?? { line: 1, column: 1 };
  const place = { source, position: { line, column } };
  if (node.type === 'mdxjsEsm') {
    const message = 'a body has no import or export; what pages need is there without it';
    return [makeProblem('body-import', place, [], message)];
  }
  if (node.type.startsWith('mdxJsx') && node.name?.toLowerCase() === 'script')
    return [makeProblem('body-script', place, [], 'a body has no <script>')];
  return (node.children ?? []).flatMap((child) => programsIn(source, child));
}
