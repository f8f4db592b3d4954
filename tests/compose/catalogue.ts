import { fileURLToPath } from 'node:url';
import { buildNetwork, type Network } from '../../src/circuit/index.ts';
import type { Catalogue, Composed } from '../../src/compose/index.ts';
import { type Entries, formatProblems, loadEntries } from '../../src/entries/index.ts';
import type { NamedStandard } from '../../src/standards/index.ts';

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));

let read: Entries | undefined;

/** Every entry of content/; @throws Error with what is wrong with them. */
export function entries(): Entries {
  if (read) return read;
  const { entries: found, problems } = loadEntries(CONTENT);
  if (problems.some(({ warning }) => !warning)) throw new Error(formatProblems(problems));
  read = found;
  return found;
}

const dataOf = <T>(kind: ReadonlyMap<string, { readonly data: T }>): ReadonlyMap<string, T> =>
  new Map([...kind].map(([id, { data }]) => [id, data]));

/** What content/ has to compose from. */
export const catalogue = (): Catalogue => ({
  modules: dataOf(entries().modules),
  devices: dataOf(entries().devices),
});

/** Every house standard of content/. */
export const standards = (): NamedStandard[] =>
  [...dataOf(entries().standards)].map(([id, standard]) => ({ id, standard }));

/** A composed system as a network. */
export const networkOf = (id: string, { system }: Composed): Network =>
  buildNetwork(id, system, catalogue().devices);
