import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { System } from '../../schemas/index.ts';
import {
  type Effects,
  fileSystem,
  frontmatterOf,
  KINDS,
  type Kind,
  loadEntries,
  type Problem,
} from '../entries/index.ts';
import {
  CONTENT,
  checkReference,
  contentFolder,
  firmFlag,
  firmFolder,
  readFirm,
} from '../firm/index.ts';
import type { Ground } from '../tables/index.ts';

/** A system whose file a command may write. */
export interface OwnSystem {
  readonly file: string;
  readonly text: string;
  /** What its cables can join. */
  readonly ground: Ground;
}

/** Folder that commands write entries into: the firm's where there is one. */
export function ownContent(): string {
  const firm = firmFolder();
  return firm === undefined ? contentFolder() : join(firm, CONTENT);
}

/**
 * A system of one's own, with the terminals of its items.
 * @throws Error that says what to do when it is not there or not one's own
 */
export function ownSystem(id: string): OwnSystem {
  const file = join(ownContent(), 'systems', `${id}.mdx`);
  if (!existsSync(file)) {
    const firm = firmFolder();
    throw new Error(
      `There is no ${relative('.', file)}. Write it first: npm run new -- system --id ${id}${firmFlag(firm)}`,
    );
  }
  const text = readFileSync(file, 'utf8');
  const written = frontmatterOf(text);
  // The cables may be anything yet; items and devices are what a table is read against.
  const items = System.shape.items.safeParse(written.items).data ?? {};
  const cables = System.shape.cables.safeParse(written.cables).data ?? {};
  const firm = firmFolder();
  const layer = firm === undefined ? undefined : readFirm(firm, fileSystem).layer;
  const { entries } = loadEntries(contentFolder(), fileSystem, layer);
  const terminals = Object.entries(items).map(([reference, { device }]): [string, string[]] => [
    reference,
    Object.keys(entries.devices.get(device)?.data.terminals ?? {}),
  ]);
  return { file, text, ground: { items: new Map(terminals), cables } };
}

/** What would be wrong with an entry's file if it held this text. */
export function checkedWith(file: string, text: string, kind: Kind = 'system'): readonly Problem[] {
  const place = resolve(file);
  const effects: Effects = {
    ...fileSystem,
    list(folder) {
      const listed = fileSystem.list(folder);
      if (resolve(folder) !== dirname(place)) return listed;
      const there = listed?.filter(({ name }) => name !== basename(place)) ?? [];
      return [...there, { name: basename(place), folder: false }];
    },
    read: (path) =>
      resolve(path) === place ? new TextEncoder().encode(text) : fileSystem.read(path),
  };
  const { problems } = checkReference({ content: contentFolder(), firm: firmFolder(), effects });
  return problemsOf(problems, file, kind);
}

/** Those of all problems that are of one's own file. */
export function problemsOf(
  problems: readonly Problem[],
  file: string,
  kind: Kind,
): readonly Problem[] {
  const prefix = firmFolder() === undefined ? '' : 'firm/content/';
  const own = `${prefix}${KINDS[kind].folder}/${basename(file)}`;
  return problems.filter((problem) => problem.file === own);
}
