import {
  type Document,
  isAlias,
  isCollection,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  type Scalar,
} from 'yaml';
import { COLOUR_CODES } from '../published/index.ts';
import { makeProblem } from './problem.ts';
import { insideSmartQuotes, SMART_QUOTE } from './smart-quotes.ts';
import { placeAt, topOf } from './source.ts';
import type { Path, Place, Places, Problem, SourceText } from './types.ts';

/** Frontmatter nested deeper than this is no entry of ours. */
const DEEPEST = 40;

/** The problem of frontmatter nested too deeply, at its first line. */
export const tooDeep = (place: Place): Problem =>
  makeProblem('yaml-unsupported', place, [], `values are nested more than ${DEEPEST} deep`);

type At = (offset: number) => Place;

/** What {@link inspectTree} found; `plain` when the tree can be turned into plain values. */
export interface Inspection {
  readonly problems: readonly Problem[];
  readonly plain: boolean;
}

/**
 * Looks through a YAML tree for what an entry may not hold: a key used twice in one place,
 * keys that are no words, typographic quotation marks, items swallowed by the text above them,
 * anchors and aliases, tags, and nesting without end.
 * @param block the text that was parsed.
 */
export function inspectTree(document: Document.Parsed, block: string, at: At): Inspection {
  const problems: Problem[] = [];
  let plain = true;
  const refuse = (node: Node, path: Path, message: string) => {
    plain = false;
    problems.push(makeProblem('yaml-unsupported', at(startOf(node)), path, message));
  };
  const visit = (node: unknown, path: Path): void => {
    if (isScalar(node)) inspectScalar(node, path);
    else if (isAlias(node)) refuse(node, path, 'an entry has no aliases; write the value out');
    else if (path.length > DEEPEST && isCollection(node)) {
      plain = false;
      problems.push(tooDeep(at(0)));
    } else if (isMap(node)) visitKeys(node.items as Pair[], path);
    else if (isSeq(node)) for (const [i, item] of node.items.entries()) visit(item, [...path, i]);
  };
  const inspectScalar = ({ type, value, range }: Scalar, path: Path): void => {
    if (type !== 'PLAIN' || typeof value !== 'string' || !range) return;
    const meant = insideSmartQuotes(value);
    if (meant !== undefined) {
      plain = false;
      problems.push(smartQuotes(value, meant, path, at(range[0])));
    }
    const swallowed = /\n\s*(?=- )/.exec(block.slice(range[0], range[1]));
    if (swallowed) {
      plain = false;
      const place = at(range[0] + swallowed.index + swallowed[0].length);
      problems.push(makeProblem('yaml-syntax', place, path, SWALLOWED));
    }
  };
  const visitKeys = (pairs: readonly Pair[], path: Path): void => {
    const first = new Map<string, Node>();
    for (const { key, value } of pairs) {
      if (!isScalar(key) || key.value === null) {
        refuse(key as Node, path, 'a key here is no word or number');
        continue;
      }
      const name = keyName(key);
      const inner = [...path, name];
      inspectScalar(key, inner);
      const earlier = first.get(name);
      if (earlier) problems.push(usedTwice(inner, at(startOf(key)), at(startOf(earlier))));
      else first.set(name, key);
      visit(value, inner);
    }
  };
  for (const warning of document.warnings) {
    plain = false;
    const message = 'an entry has no YAML tags; write the plain value';
    problems.push(makeProblem('yaml-unsupported', at(warning.pos[0]), [], message));
  }
  visit(document.contents, []);
  return { problems, plain };
}

const SWALLOWED =
  'this item is indented under the text above and would become part of it; the items of one list begin in the same column';

function smartQuotes(found: string, meant: string, path: Path, place: Place): Problem {
  const message =
    'typographic quotation marks would become part of this; YAML knows only straight ones, " and \'';
  return makeProblem('smart-quotes', place, path, message, {
    found,
    // Where a comma has cut it, the rest stands elsewhere.
    suggestion: SMART_QUOTE.test(found.at(-1) ?? '') ? JSON.stringify(meant) : undefined,
  });
}

function usedTwice(path: Path, again: Place, earlier: Place): Problem {
  const name = String(path.at(-1));
  const { line } = earlier.position;
  if (path[0] === 'cables' && path[2] === 'cores' && name in COLOUR_CODES) {
    const message = `core ${name} of ${String(path[1])} is used twice; it is joined on line ${line}`;
    return makeProblem('core-used-twice', again, path, message, { found: name });
  }
  const message = `“${name}” stands twice in one place; it is given on line ${line}`;
  return makeProblem('key-used-twice', again, path, message, { found: name });
}

/** Where the values of a YAML tree stand in a file whose frontmatter begins at `offset`. */
export function placesIn(source: SourceText, root: unknown, offset: number): Places {
  const at: At = (within) => placeAt(source, offset + within);
  const nearestKey = ({ trail }: Found): Place => {
    const step = trail.at(-1);
    return step ? at(startOf(step.key ?? step.value)) : topOf(source);
  };
  return {
    has: (path) => find(root, path).exact,
    value(path) {
      const found = find(root, path);
      const step = found.trail.at(-1);
      return found.exact && step ? at(startOf(step.value ?? step.key)) : nearestKey(found);
    },
    key: (path) => nearestKey(find(root, path)),
  };
}

interface Found {
  /** The steps that exist, outermost first. */
  readonly trail: readonly { readonly key?: Node; readonly value: Node | null }[];
  readonly exact: boolean;
}

function find(root: unknown, path: Path): Found {
  const trail: { key?: Node; value: Node | null }[] = [];
  let node = root;
  for (const part of path) {
    if (isMap(node)) {
      // The last of two equal keys is the one whose value is read.
      const pair = (node.items as Pair<Node, Node | null>[]).findLast(
        ({ key }) => isScalar(key) && keyName(key) === String(part),
      );
      if (!pair) return { trail, exact: false };
      trail.push({ key: pair.key, value: pair.value });
      node = pair.value;
    } else if (isSeq(node)) {
      const item = node.items[Number(part)] as Node | undefined;
      if (!item) return { trail, exact: false };
      trail.push({ value: item });
      node = item;
    } else return { trail, exact: false };
  }
  return { trail, exact: true };
}

const keyName = (key: { readonly value: unknown }): string => String(key.value);

function startOf(node: { range?: unknown } | null | undefined): number {
  const range = node?.range;
  return Array.isArray(range) && typeof range[0] === 'number' ? range[0] : 0;
}
