import { makeProblem } from './problem.ts';
import type { Place, Problem } from './types.ts';

/** What this check needs of a Markdown syntax tree. */
export interface ProseNode {
  readonly type: string;
  readonly name?: string | null;
  readonly value?: string;
  readonly url?: string;
  /** Of a heading: 1 for #, 2 for ##. */
  readonly depth?: number;
  readonly attributes?: readonly { readonly name?: string; readonly value?: unknown }[];
  readonly children?: readonly ProseNode[];
}

/** HTML that prose may hold beside Markdown: it orders and marks text, and loads nothing. */
const TAGS = new Set(
  [
    'a abbr b blockquote br caption cite code dd del details dfn div dl dt em h2 h3 h4 hr i ins',
    'kbd li ol p pre q s samp section small span strong sub summary sup table tbody td tfoot th',
    'thead tr u ul var',
  ]
    .join(' ')
    .split(' '),
);

/** What such a tag may be given. Anything else styles, runs, loads or names a part of a page. */
const ATTRIBUTES = new Set('href title lang abbr scope colspan rowspan start open'.split(' '));

const LINKS =
  'a page as in /procedures/dead-tests/, a place of this page as in #how-it-works, or https://…';
/** Where a link may lead: a place on this page, a page of this site, a site, a person. */
const LEADS = /^(#|\/(?!\/)|https?:\/\/|mailto:|tel:)/i;

/**
 * What prose may not hold, since it would run a program in the build or in the page, load
 * something, or dress a page as what it is not.
 */
export function safetyProblems<N extends ProseNode>(
  node: N,
  placeOf: (node: ProseNode) => Place,
): Problem[] {
  const inner = (node.children ?? []).flatMap((child) => safetyProblems(child, placeOf));
  const found = problemOf(node);
  if (!found) return inner;
  const details = found.code === 'body-link' ? { allowed: LINKS } : {};
  return [makeProblem(found.code, placeOf(node), [], found.message, details), ...inner];
}

type Found = {
  readonly code:
    | 'body-heading'
    | 'body-import'
    | 'body-script'
    | 'body-program'
    | 'body-tag'
    | 'body-link';
  readonly message: string;
};

function problemOf(node: ProseNode): Found | undefined {
  const { type, name, value = '', url } = node;
  if (type === 'mdxjsEsm')
    return {
      code: 'body-import',
      message: 'a body has no import or export; what pages need is there without it',
    };
  if (/^mdx(Flow|Text)Expression$/.test(type) && !isComment(value))
    return {
      code: 'body-program',
      message: 'what stands in braces is a program; a body has none. A brace in prose is \\{',
    };
  if (type === 'heading' && node.depth === 1)
    return {
      code: 'body-heading',
      message: 'the one heading with a single # is the entry’s title; a body’s begin with ##',
    };
  if (type === 'image' || type === 'imageReference')
    return { code: 'body-tag', message: 'a body has no pictures' };
  if ((type === 'link' || type === 'definition') && !LEADS.test(url ?? ''))
    return { code: 'body-link', message: `a link cannot lead to “${url ?? ''}”` };
  return type.startsWith('mdxJsx') && name && !/^[A-Z]|\./.test(name)
    ? tagProblem(node)
    : undefined;
}

function tagProblem({ name, attributes = [] }: ProseNode): Found | undefined {
  if (name!.toLowerCase() === 'script')
    return { code: 'body-script', message: 'a body has no <script>' };
  if (!TAGS.has(name!)) return { code: 'body-tag', message: `a body has no <${name}>` };
  for (const attribute of attributes) {
    if (attribute.name === undefined || typeof attribute.value === 'object')
      if (attribute.value !== null || attribute.name === undefined)
        return { code: 'body-program', message: `<${name}> is given a program; a body has none` };
    if (!ATTRIBUTES.has(attribute.name!))
      return { code: 'body-tag', message: `<${name}> takes no “${attribute.name}” in a body` };
    if (attribute.name === 'href' && !LEADS.test(String(attribute.value)))
      return { code: 'body-link', message: `a link cannot lead to “${String(attribute.value)}”` };
  }
  return undefined;
}

/** A comment between braces, which leaves nothing in the page. */
const isComment = (program: string) => /^\s*(\/\*(?:(?!\*\/)[\s\S])*\*\/\s*)*$/.test(program);
