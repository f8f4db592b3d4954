import { readBody } from './body.ts';
import { componentProblems } from './body-references.ts';
import type { BodyTag } from './body-tags.ts';
import type { ContentFile } from './folder.ts';
import { type Frontmatter, readFrontmatter } from './frontmatter.ts';
import type { Kind } from './kinds.ts';
import { readText } from './read-text.ts';
import type { Origin, Problem } from './types.ts';

/** An entry's file in its parts, before any schema. */
export interface ReadEntry {
  readonly kind: Kind;
  readonly id: string;
  readonly file: string;
  readonly frontmatter: Frontmatter;
  /** Components that its body names. */
  readonly tags: readonly BodyTag[];
  readonly problems: readonly Problem[];
  /** Those of them in its body, which no circuit hangs on. */
  readonly inBody: readonly Problem[];
  /** Whose it is, where a firm's folder is layered over the reference. */
  readonly origin: Origin;
  /** The reference's file that it starts from, where it extends the entry of its own name. */
  readonly over?: string;
}

/** Reads a file's text, its frontmatter and its body, and what is wrong with any of them. */
export function readEntry({ kind, id, file, bytes }: ContentFile): ReadEntry {
  const { source, text, problems } = readText(file, bytes);
  const frontmatter = readFrontmatter(source, text ?? '');
  // Bytes that are no text have been reported; what a reader makes of them is no matter.
  if (text === undefined)
    return { kind, id, file, frontmatter, tags: [], problems, inBody: [], origin: 'reference' };
  const { tags, ...body } = readBody(source, frontmatter.body, frontmatter.bodyOffset);
  const inBody = [...body.problems, ...componentProblems(kind, tags)];
  return {
    kind,
    id,
    file,
    frontmatter,
    tags,
    origin: 'reference',
    problems: [...problems, ...frontmatter.problems, ...inBody],
    inBody,
  };
}
