import { isMap, type Pair, parseDocument, type Scalar } from 'yaml';

/**
 * An entry's text with one key of its frontmatter written anew and every other byte as it was.
 * @param block the key and its value as YAML lines, or empty to take the key out.
 * @param before key that the block stands before where it is not there yet.
 * @throws RangeError when the text has no frontmatter of keys and values
 */
export function withKey(text: string, key: string, block: string, before?: string): string {
  const [whole, opening = '', yaml = ''] = /^(---[ \t]*\n)([\s\S]*?\n)---/.exec(text) ?? [];
  const { contents } = parseDocument(yaml);
  if (whole === undefined || !isMap(contents) || contents.flow)
    throw new RangeError('the file does not begin with frontmatter of keys and values');
  const pairs = contents.items as Pair<Scalar, unknown>[];
  const startOf = (pair: Pair<Scalar, unknown> | undefined) =>
    pair ? lineStart(yaml, pair.key.range?.[0] ?? 0) : yaml.length;
  const at = pairs.findIndex((pair) => pair.key.value === key);
  const next = at === -1 ? pairs.find((pair) => pair.key.value === before) : pairs[at + 1];
  const from = at === -1 ? commentsAbove(yaml, startOf(next), 0) : startOf(pairs[at]);
  const to = at === -1 ? from : commentsAbove(yaml, startOf(next), from);
  const spliced = yaml.slice(0, from) + block + yaml.slice(to);
  return opening + spliced + text.slice(opening.length + yaml.length);
}

const lineStart = (text: string, offset: number) => text.lastIndexOf('\n', offset - 1) + 1;

/** Where the comments that stand directly above a place begin: they belong to what follows. */
function commentsAbove(text: string, place: number, least: number): number {
  let at = place;
  while (at > least) {
    const start = lineStart(text, at - 1);
    if (start <= least || !/^#/.test(text.slice(start, at))) break;
    at = start;
  }
  return at;
}
