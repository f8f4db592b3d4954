import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { buildNetwork, type Network } from '../../src/circuit/index.ts';
import { loadEntries } from '../../src/entries/index.ts';

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));

/** Entry ids of every system file that content/ holds, valid or not. */
export function systemFiles(): readonly string[] {
  return readdirSync(`${CONTENT}/systems`)
    .filter((name) => name.endsWith('.mdx'))
    .map((name) => name.slice(0, -'.mdx'.length))
    .sort();
}

let networks: ReadonlyMap<string, Network> | undefined;

/** Networks of every valid system that content/ holds, by entry id; read once a process. */
export function shippedNetworks(): ReadonlyMap<string, Network> {
  networks ??= read();
  return networks;
}

function read(): ReadonlyMap<string, Network> {
  const { entries } = loadEntries(CONTENT);
  const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
  return new Map(
    [...entries.systems].map(([id, { data }]) => [id, buildNetwork(id, data, devices)]),
  );
}
