import { readdirSync, readFileSync } from 'node:fs';
import { type Effects, KINDS, type Listed } from '../../src/entries/index.ts';

const FIXTURE = new URL('../fixtures/entries/valid/', import.meta.url);

/** A content folder in memory: file name → text or bytes. */
export type Folder = Readonly<Record<string, string | Uint8Array>>;

/** The valid fixture: a bench with a heater and a switch, as files in memory. */
export const valid: Folder = Object.fromEntries(
  Object.values(KINDS).flatMap(({ folder }) =>
    readdirSync(new URL(folder, FIXTURE)).map((name) => {
      const file = `${folder}/${name}`;
      return [file, readFileSync(new URL(file, FIXTURE), 'utf8')];
    }),
  ),
);

/** The name under which {@link inMemory} serves a folder. */
export const ROOT = 'bench';

/** A file system that holds one content folder and nothing else. */
export function inMemory(folder: Folder): Effects {
  return {
    list(path) {
      const prefix = path === ROOT ? '' : `${path.slice(ROOT.length + 1)}/`;
      const inside = Object.keys(folder).filter((file) => file.startsWith(prefix));
      if (inside.length === 0 && path !== ROOT) return undefined;
      const listed = new Map<string, Listed>();
      for (const file of inside) {
        const [name = '', ...rest] = file.slice(prefix.length).split('/');
        listed.set(name, { name, folder: rest.length > 0 });
      }
      return [...listed.values()];
    },
    read(path) {
      const content = folder[path.slice(ROOT.length + 1)];
      if (content === undefined) throw new Error(`no file ${path}`);
      return typeof content === 'string' ? new TextEncoder().encode(content) : content;
    },
  };
}

/** The text of one file of the fixture. */
export function textOf(file: string): string {
  const text = valid[file];
  if (typeof text !== 'string') throw new Error(`the fixture has no file ${file}`);
  return text;
}

/** The valid folder with one file changed, by replacing texts that stand in it once. */
export function edited(file: string, ...changes: readonly [from: string, to: string][]): Folder {
  const text = changes.reduce((before, [from, to]) => {
    const parts = before.split(from);
    if (parts.length !== 2)
      throw new Error(`“${from}” stands ${parts.length - 1} times in ${file}, not once`);
    return parts.join(to);
  }, textOf(file));
  return { ...valid, [file]: text };
}

/** A bad folder, and what is said of it: `file:line:column code: message` for each problem. */
export interface Case {
  readonly name: string;
  readonly folder: Folder;
  readonly problems: readonly string[];
}
