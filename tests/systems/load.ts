import { fileURLToPath } from 'node:url';
import type { System } from '../../schemas/index.ts';
import {
  type BuildOptions,
  buildNetwork,
  INSTRUMENTS,
  type Network,
  type Reading,
  read,
  type Seen,
  type Settled,
  simulate,
} from '../../src/circuit/index.ts';
import { type Entries, formatProblems, type Loaded, loadEntries } from '../../src/entries/index.ts';

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));

let loaded: Loaded | undefined;

/**
 * One shipped system as a network, built afresh.
 * @param change makes another system of it first; it is given a copy.
 * @throws RangeError with the problems of the content when the system is not valid.
 */
export function loadSystem(
  id: string,
  options: BuildOptions = {},
  change: (system: System) => System = (system) => system,
): Network {
  const { systems, devices } = entries();
  const entry = systems.get(id);
  if (!entry) {
    const about = formatProblems(loaded?.problems ?? []);
    throw new RangeError(
      `no valid system ${id}; it has ${[...systems.keys()].join(', ')}\n${about}`,
    );
  }
  const kinds = new Map([...devices].map(([name, { data }]) => [name, data]));
  return buildNetwork(id, change(structuredClone(entry.data)), kinds, options);
}

function entries(): Entries {
  loaded ??= loadEntries(CONTENT);
  return loaded.entries;
}

/**
 * A network at rest in one of its modes.
 * @throws RangeError for a mode it does not have.
 */
export function modeOf(network: Network, mode: string): Settled {
  const settled = simulate(network).modes.get(mode);
  if (!settled) throw new RangeError(`${network.id} has no mode ${mode}`);
  return settled;
}

/** Reads two points of a shipped system in a mode; to E1.N with the tester unless told. */
export function reader(id: string, mode: string) {
  const { solution } = modeOf(loadSystem(id), mode);
  return (from: string, to = 'E1.N', instrument = INSTRUMENTS[0]!): Reading =>
    read(solution, from, to, instrument);
}

/** An outcome of a shipped system in a mode; undefined when it has no such outcome. */
export function seen(id: string, mode: string, outcome: string): Seen | undefined {
  return modeOf(loadSystem(id), mode).outcomes.get(outcome);
}
