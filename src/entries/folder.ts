import { Slug } from '../../schemas/index.ts';
import type { Effects } from './effects.ts';
import { KINDS, type Kind } from './kinds.ts';
import { among, compareText, makeProblem } from './problem.ts';
import { sourceText, topOf } from './source.ts';
import type { Problem } from './types.ts';

/** One file of a content folder that may be an entry. */
export interface ContentFile {
  readonly kind: Kind;
  readonly id: string;
  /** Path from the content folder. */
  readonly file: string;
  readonly bytes: Uint8Array;
}

const ENDING = '.mdx';

/** Lists a content folder's entries by kind, in order of file name, and what is out of place. */
export function readFolder(
  root: string,
  effects: Effects,
): { readonly files: readonly ContentFile[]; readonly problems: readonly Problem[] } {
  const listed = effects.list(root);
  const folders = Object.values(KINDS).map(({ folder }) => folder);
  if (!listed)
    return { files: [], problems: [atFile('folder-missing', root, 'there is no such folder')] };
  const problems: Problem[] = [];
  const files: ContentFile[] = [];

  for (const { name, folder } of listed) {
    if (!folder || name.startsWith('.') || folders.some((known) => known === name)) continue;
    const message = 'this folder holds no kind of entry';
    problems.push(atFile('folder-unknown', name, message, among(name, folders)));
  }
  for (const [kind, { folder }] of Object.entries(KINDS) as [Kind, { folder: string }][]) {
    const names = [...(effects.list(`${root}/${folder}`) ?? [])];
    for (const item of names.sort((a, b) => compareText(a.name, b.name))) {
      if (item.name.startsWith('.')) continue;
      const file = `${folder}/${item.name}`;
      const misplaced = item.folder
        ? atFile(
            'folder-unknown',
            file,
            `entries stand directly in ${folder}/, not in folders within it`,
          )
        : nameProblem(file, item.name);
      if (misplaced) problems.push(misplaced);
      if (item.folder || !item.name.endsWith(ENDING)) continue;
      try {
        const bytes = effects.read(`${root}/${file}`);
        files.push({ kind, id: item.name.slice(0, -ENDING.length), file, bytes });
      } catch {
        problems.push(atFile('file-unreadable', file, 'the file cannot be read'));
      }
    }
  }
  if (files.length === 0 && problems.length === 0) {
    const message = `there is no entry in it; entries stand in ${folders.join('/, ')}/`;
    problems.push(atFile('folder-empty', root, message));
  }
  return { files, problems };
}

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
