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

/** The project's content with one file edited: each text stands in it once. */
export function editedContent(file: string, ...changes: readonly [from: string, to: string][]) {
  const path = `${CONTENT}/${file}`;
  const decoded = new TextDecoder().decode(fileSystem.read(path));
  const text = changes.reduce((before, [from, to]) => {
    const parts = before.split(from);
    if (parts.length !== 2)
      throw new Error(`“${from}” stands ${parts.length - 1} times in ${file}`);
    return parts.join(to);
  }, decoded);
  const effects: Effects = {
    list: fileSystem.list,
    read: (name) => (name === path ? new TextEncoder().encode(text) : fileSystem.read(name)),
  };
  return effects;
}
