import { parseDocument } from 'yaml';
import { KINDS, type Kind } from '../entries/index.ts';

/** What a new entry is made from. */
export interface NewEntry {
  readonly kind: Kind;
  /** Path from the entry's folder to the one that holds the JSON Schemas. */
  readonly schemas: string;
  /** Text of the entry it starts from. */
  readonly from: string;
  /** Absent where it stands in the place of that entry and keeps its title. */
  readonly title?: string | undefined;
  readonly replaces?: string;
}

/** First line of frontmatter, by which an editor finds what may be written below it. */
const schemaLine = (kind: Kind, schemas: string) =>
  `# yaml-language-server: $schema=${schemas}/${kind}.schema.json\n`;

/** Stands where the review goes once somebody has read the entry through. */
const REVIEW_LINE = '# Nobody has reviewed this yet. Whoever reads it through: npm run review\n';

/**
 * An entry like another, in order as it stands: under its own title, without the other's
 * names, those it had before, and exceptions. It has no review, whoever asked for it: nobody has
 * read the copy yet.
 * Prose about the other is left out, but for a house standard, which says why it exists.
 */
export function entryText({ kind, schemas, from, title, replaces }: NewEntry): string {
  const [, yaml = '', body = ''] = /^---\n([\s\S]*?\n)---\n?([\s\S]*)$/.exec(from) ?? [];
  const document = parseDocument(yaml);
  if (title !== undefined) document.set('title', title);
  for (const key of ['aliases', 'formerly', 'exceptions', 'author', 'review', 'checked'])
    document.delete(key);
  if (document.has('version')) document.set('version', 1);
  const claim = replaces === undefined ? '' : `replaces: ${replaces}\n`;
  const keepsBody = replaces !== undefined || kind === 'standard';
  const kept = keepsBody ? body.replace(/^\n*/, '\n') : '\n';
  const facts = document.toString({ lineWidth: 0 });
  return `---\n${schemaLine(kind, schemas)}${claim}${facts}${REVIEW_LINE}---\n${kept.trimEnd() === '' ? '' : `${kept.trimEnd()}\n`}`;
}

/** An entry that only adds to the reference's entry of its name. */
export function extensionText(kind: Kind, id: string, schemas: string): string {
  const what = KINDS[kind].title.toLowerCase();
  return `---\n${schemaLine(kind, schemas)}extends: ${id}\n# What stands here is added to the reference’s ${what}: lists at their end, keys beside its keys.\n${REVIEW_LINE}---\n`;
}
