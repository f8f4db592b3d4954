import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Effects, fileSystem, type Listed } from '../../src/entries/index.ts';
import { type Checked, checkReference } from '../../src/firm/index.ts';

/** A firm's folder in memory: path → text, bytes, or that it is a link. */
export type FirmFiles = Readonly<Record<string, string | Uint8Array | typeof LINK>>;

/** Stands for a symbolic link or a special file. */
export const LINK = Symbol('link');

/** The invented firm whose folder is kept beside these tests. */
export const EXAMPLE = fileURLToPath(new URL('../example-firm', import.meta.url));

/** The reference's own content. */
export const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));

/** A small content folder: a bench, its two devices and what belongs to them. */
export const FIXTURE = fileURLToPath(new URL('../fixtures/entries/valid', import.meta.url));

/** Path under which a firm in memory is served; no such folder is on any machine. */
export const ROOT = '/a firm in memory';

/** The files of a folder, as a firm in memory. */
export const filesOf = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ parentPath, name }) => join(parentPath, name))
      .map((file) => [file.slice(folder.length + 1), readFileSync(file, 'utf8')]),
  );

/** The machine's file system with one firm's folder laid into it. */
export function withFirm(files: FirmFiles): Effects {
  const inside = (path: string) => path === ROOT || path.startsWith(`${ROOT}/`);
  return {
    list(folder) {
      if (!inside(folder)) return fileSystem.list(folder);
      const prefix = folder === ROOT ? '' : `${folder.slice(ROOT.length + 1)}/`;
      const listed = new Map<string, Listed>();
      for (const [path, content] of Object.entries(files)) {
        if (!path.startsWith(prefix)) continue;
        const [name = '', ...rest] = path.slice(prefix.length).split('/');
        const isFolder = rest.length > 0;
        listed.set(name, { name, folder: isFolder, other: !isFolder && content === LINK });
      }
      return listed.size === 0 && folder !== ROOT ? undefined : [...listed.values()];
    },
    read(path) {
      if (!inside(path)) return fileSystem.read(path);
      const content = files[path.slice(ROOT.length + 1)];
      if (content === undefined || typeof content === 'symbol') throw new Error(`no file ${path}`);
      return typeof content === 'string' ? new TextEncoder().encode(content) : content;
    },
  };
}

/** Checks a content folder with a firm in memory over it, on a day when nothing of it is new. */
export const checkFirm = (files: FirmFiles, content = CONTENT, today = '2026-11-25'): Checked =>
  checkReference({ content, firm: ROOT, today, effects: withFirm(files) });

/** Problems in one line each: file, line, code and message. */
export const said = ({ problems }: Pick<Checked, 'problems'>): string[] =>
  problems.map(
    ({ file, position, code, message }) => `${file}:${position.line} ${code}: ${message}`,
  );
