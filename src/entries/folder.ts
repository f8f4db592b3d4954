import { Slug } from '../../schemas/index.ts';
import { type Effects, type Listed, MOST_BYTES } from './effects.ts';
import { KINDS, type Kind } from './kinds.ts';
import { among, compareText, makeProblem } from './problem.ts';
import { sourceText, topOf } from './source.ts';
import type { Problem } from './types.ts';

/** One file of a content folder that may be an entry. */
export interface ContentFile {
  readonly kind: Kind;
  readonly id: string;
  /** Path from the content folder, after the layer's prefix. */
  readonly file: string;
  readonly bytes: Uint8Array;
}

const ENDING = '.mdx';

/** How a content folder is read where it is a layer over another. */
export interface LayerOptions {
  /** Stands before the paths of its files in problems. */
  readonly prefix?: string;
  /** Whether it may be missing or hold nothing. */
  readonly optional?: boolean;
}

/** Lists a content folder's entries by kind, in order of file name, and what is out of place. */
export function readFolder(
  root: string,
  effects: Effects,
  { prefix = '', optional = false }: LayerOptions = {},
): { readonly files: readonly ContentFile[]; readonly problems: readonly Problem[] } {
  const listed = effects.list(root);
  const folders = Object.values(KINDS).map(({ folder }) => folder);
  if (!listed)
    return {
      files: [],
      problems: optional ? [] : [atFile('folder-missing', root, 'there is no such folder')],
    };
  const problems: Problem[] = [];
  const files: ContentFile[] = [];

  const links = new Set<string>();
  for (const item of listed) {
    const { name, folder } = item;
    const known = folders.some((one) => one === name);
    if (item.other && known) {
      links.add(name);
      problems.push(linkProblem(`${prefix}${name}`));
    }
    if (!folder || name.startsWith('.') || known) continue;
    const message = 'this folder holds no kind of entry';
    problems.push(atFile('folder-unknown', `${prefix}${name}`, message, among(name, folders)));
  }
  for (const [kind, { folder }] of Object.entries(KINDS) as [Kind, { folder: string }][]) {
    const names = links.has(folder) ? [] : [...(effects.list(`${root}/${folder}`) ?? [])];
    for (const item of names.sort((a, b) => compareText(a.name, b.name))) {
      if (item.name.startsWith('.')) continue;
      const file = `${prefix}${folder}/${item.name}`;
      const misplaced = misplacedIn(folder, file, item);
      if (misplaced) problems.push(misplaced);
      if (item.folder || item.other || !item.name.endsWith(ENDING)) continue;
      try {
        const bytes = effects.read(`${root}/${folder}/${item.name}`);
        if (bytes.length > MOST_BYTES)
          problems.push(
            atFile('file-too-large', file, `a file here has at most ${MOST_BYTES} bytes`),
          );
        else files.push({ kind, id: item.name.slice(0, -ENDING.length), file, bytes });
      } catch {
        problems.push(atFile('file-unreadable', file, 'the file cannot be read'));
      }
    }
  }
  if (files.length === 0 && problems.length === 0 && !optional) {
    const message = `there is no entry in it; entries stand in ${folders.join('/, ')}/`;
    problems.push(atFile('folder-empty', root, message));
  }
  return { files, problems };
}

function misplacedIn(folder: string, file: string, item: Listed): Problem | undefined {
  if (item.other) return linkProblem(file);
  if (!item.folder) return nameProblem(file, item.name);
  const message = `entries stand directly in ${folder}/, not in folders within it`;
  return atFile('folder-unknown', file, message);
}

const linkProblem = (file: string) =>
  atFile('file-link', file, 'this is a link or a special file, not a file or folder of its own');

function nameProblem(file: string, name: string): Problem | undefined {
  if (!name.endsWith(ENDING)) {
    const stem = name.replace(/\.[A-Za-z.]*$/, '');
    return atFile('file-name', file, 'an entry’s file name ends in .mdx', {
      found: name,
      suggestion: `${slugOf(stem)}${ENDING}`,
    });
  }
  const id = name.slice(0, -ENDING.length);
  if (Slug.safeParse(id).success) return undefined;
  return atFile('file-name', file, 'a file name is lower-case words joined by hyphens', {
    found: name,
    suggestion: `${slugOf(id)}${ENDING}`,
  });
}

const slugOf = (text: string) =>
  text
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '');

const atFile = (
  code: Parameters<typeof makeProblem>[0],
  file: string,
  message: string,
  details: Parameters<typeof makeProblem>[4] = {},
): Problem => makeProblem(code, topOf(sourceText(file, '')), [], message, details);
