import { fileURLToPath } from 'node:url';
import type { System } from '../../schemas/index.ts';
import { type Network, simulate } from '../../src/circuit/index.ts';
import { type Effects, fileSystem, loadEntries } from '../../src/entries/index.ts';
import { type Judgement, judge, type NamedStandard } from '../../src/standards/index.ts';
import { loadSystem } from '../systems/load.ts';

/** The content folder of the project. */
export const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));

const { entries } = loadEntries(CONTENT);

/** The standards of the project, by id. */
export const standards: readonly NamedStandard[] = [...entries.standards.values()].map(
  ({ id, data }) => ({ id, standard: data }),
);
export const systemIds: readonly string[] = [...entries.systems.keys()];

/** A change to a system's entry, made on a copy. */
export type Damage = (system: System) => void;

/** What one standard says of a shipped system, changed first. */
export function judged(
  standard: string,
  id: string,
  damage: Damage = () => {},
  change: (network: Network) => Network = (network) => network,
): Judgement {
  const network = loadSystem(id, {}, (system) => {
    damage(system);
    return system;
  });
  const named = standards.filter((one) => one.id === standard);
  const [judgement] = judge(named, simulate(change(network)), '2026-12-01');
  if (!judgement) throw new Error(`there is no standard ${standard}`);
  return judgement;
}

/** Texts to replace in a file of the content folder, each standing in it once. */
export type Edits = Readonly<Record<string, readonly (readonly [from: string, to: string])[]>>;

/** The project's content with some files edited, as a file system. */
export function editedContent(edits: Edits): Effects {
  const texts = new Map(
    Object.entries(edits).map(([file, changes]) => {
      const path = `${CONTENT}/${file}`;
      const before = new TextDecoder().decode(fileSystem.read(path));
      return [path, changes.reduce((text, [from, to]) => replaced(text, from, to), before)];
    }),
  );
  return {
    list: fileSystem.list,
    read(path) {
      const text = texts.get(path);
      return text === undefined ? fileSystem.read(path) : new TextEncoder().encode(text);
    },
  };
}

function replaced(text: string, from: string, to: string): string {
  const parts = text.split(from);
  if (parts.length !== 2) throw new Error(`“${from}” stands ${parts.length - 1} times, not once`);
  return parts.join(to);
}
