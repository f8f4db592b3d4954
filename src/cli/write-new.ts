import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { Slug } from '../../schemas/index.ts';
import { KINDS, type Kind, type Problem } from '../entries/index.ts';
import { contentFolder, firmFolder } from '../firm/index.ts';
import { copiedIn } from '../form/copied.ts';
import { writtenIn } from '../form/document.ts';
import { SCHEMAS, writeFirmSchemas } from './firm-schemas.ts';
import { entryText, extensionText } from './new-entry.ts';
import { checkedWith, ownContent } from './own-system.ts';

/** What a new entry is to be. */
export interface Asked {
  readonly kind: Kind;
  /** The entry that it starts from. */
  readonly like: string;
  readonly id: string;
  /** Absent where it stands in the place of that entry, or adds to it. */
  readonly title?: string | undefined;
  readonly claim?: 'replaces' | 'extends' | undefined;
}

/**
 * Writes a new entry, which bears no review, beside one's own.
 * @returns its file, what is wrong with it, and what it still says of the entry it starts from
 * @throws Error that says what to do where the name is none or is taken
 */
export function writeNew({ kind, like, id, title, claim }: Asked): {
  readonly file: string;
  readonly problems: readonly Problem[];
  readonly copied: readonly string[];
} {
  if (!Slug.safeParse(id).success)
    throw new Error(
      `--id ${id}: a file name is lower-case words joined by hyphens, as ${slugOf(id)}`,
    );
  const { folder } = KINDS[kind];
  const file = join(ownContent(), folder, `${id}.mdx`);
  if (existsSync(file)) throw new Error(`${relative('.', file)} is there already`);
  const schemas = schemasFrom(dirname(file), kind);
  const from = readFileSync(join(contentFolder(), folder, `${like}.mdx`), 'utf8');
  const written =
    claim === 'extends'
      ? extensionText(kind, like, schemas)
      : entryText({ kind, schemas, from, title, ...(claim ? { replaces: like } : {}) });
  mkdirSync(dirname(file), { recursive: true });
  const problems = checkedWith(file, written, kind);
  writeFileSync(file, written);
  const copied = claim ? [] : copiedIn(writtenIn(written).values, writtenIn(from).values);
  return { file, problems, copied };
}

/** Path from an entry's folder to the schemas that its editor needs; a firm's are made if missing. */
function schemasFrom(folder: string, kind: Kind): string {
  const firm = firmFolder();
  const schemas = resolve(firm === undefined ? SCHEMAS : join(firm, 'schemas'));
  if (firm !== undefined && !existsSync(join(schemas, `${kind}.schema.json`)))
    writeFirmSchemas(firm);
  return relative(folder, schemas).replaceAll('\\', '/');
}

/** A file name made from a title. */
export const slugOf = (title: string): string =>
  title
    .toLowerCase()
    .replaceAll(/['’]/g, '')
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '');
