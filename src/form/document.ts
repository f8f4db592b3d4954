import {
  Document,
  isCollection,
  isMap,
  isScalar,
  type Pair,
  parse,
  parseDocument,
  stringify,
  YAMLMap,
} from 'yaml';
import { withKey } from '../tables/index.ts';

/** What an author writes in an entry: its frontmatter as plain values, and its prose. */
export interface Written {
  readonly values: Values;
  readonly body: string;
}

type Values = Readonly<Record<string, unknown>>;

/** Characters up to which a new list of words stands on one line. */
const ONE_LINE = 80;

/** An entry's text in its parts; no values where its frontmatter cannot be read. */
export function writtenIn(text: string): Written {
  const { yaml, body } = partsOf(text);
  const values: unknown = parseDocument(yaml).toJS();
  return { values: isPlain(values) ? values : {}, body };
}

/**
 * An entry's text with other values. What stays keeps its place, its style and its comments; a key
 * in another's stead stands where that stood.
 */
export function withWritten(text: string, { values, body }: Written): string {
  const { yaml, body: before } = partsOf(text);
  const document: Document = parseDocument(yaml);
  const { contents } = document;
  if (!isMap(contents))
    return `---\n${stringify(values)}---\n${body === before ? before : proseOf(body)}`;
  const was: Values = document.toJS();
  patch(document, contents, was, values);
  const facts = [...new Set([...Object.keys(was), ...Object.keys(values)])]
    .filter((key) => JSON.stringify(was[key]) !== JSON.stringify(values[key]))
    .reduce((written, key) => withKey(written, key, blockOf(pairOf(contents, key))), text);
  if (body === before) return facts;
  return `---\n${partsOf(facts).yaml}---\n${proseOf(body)}`;
}

const proseOf = (body: string) => (body.trim() === '' ? '' : `\n${body.trim()}\n`);

/** A key and its value as YAML; lists on one line stand in brackets without room, as people write. */
function blockOf(pair: Pair | undefined): string {
  if (!pair) return '';
  // What is said above a key stands in the file already.
  if (isScalar(pair.key)) {
    delete pair.key.commentBefore;
    delete pair.key.spaceBefore;
  }
  const map = new YAMLMap();
  map.items.push(pair);
  const document = new Document();
  document.contents = map;
  const written = document.toString({ lineWidth: 0 });
  const tight = written.replaceAll(/\[ (?=\S)/g, '[').replaceAll(/(?<=\S) \]/g, ']');
  const isSame = JSON.stringify(parse(tight)) === JSON.stringify(parse(written));
  return isSame ? tight : written;
}

function partsOf(text: string): { yaml: string; body: string } {
  const [, yaml = '', body = ''] = /^---\r?\n([\s\S]*?\n)---\r?\n?([\s\S]*)$/.exec(text) ?? [];
  return { yaml, body };
}

function patch(document: Document, map: YAMLMap, before: Values, after: Values): void {
  const gone = Object.keys(before).filter((key) => !(key in after));
  const come = Object.keys(after).filter((key) => !(key in before));
  for (const key of Object.keys(after).filter((key) => key in before))
    patchPair(document, pairOf(map, key)!, before[key], after[key]);
  if (gone.length === 1 && come.length === 1) {
    const pair = pairOf(map, gone[0]!)!;
    pair.key = document.createNode(come[0]!);
    patchPair(document, pair, before[gone[0]!], after[come[0]!]);
    return;
  }
  for (const key of gone) map.items.splice(map.items.indexOf(pairOf(map, key)!), 1);
  for (const key of come)
    map.items.push(document.createPair(key, made(document, after[key])) as Pair);
}

function patchPair(document: Document, pair: Pair, before: unknown, after: unknown): void {
  if (JSON.stringify(before) === JSON.stringify(after)) return;
  const { value } = pair;
  if (isMap(value) && isPlain(before) && isPlain(after)) {
    patch(document, value, before, after);
    return;
  }
  if (isScalar(value) && !isCollection(after) && (typeof after !== 'object' || after === null)) {
    value.value = after;
    return;
  }
  const next = made(document, after);
  if (isCollection(next) && isCollection(value) && value.flow !== undefined) next.flow = value.flow;
  pair.value = next;
}

/** A new value; a short list of words stands on one line. */
function made(document: Document, value: unknown) {
  const node = document.createNode(value);
  if (isCollection(node) && JSON.stringify(value).length <= ONE_LINE) node.flow = true;
  return node;
}

/** A key may be written as a number, as a terminal’s is. */
const pairOf = (map: YAMLMap, key: string): Pair | undefined =>
  map.items.find((pair) => String(isScalar(pair.key) ? pair.key.value : pair.key) === key);

const isPlain = (value: unknown): value is Values =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
