import { fileURLToPath } from 'node:url';
import type { Device, System } from '../../../schemas/index.ts';
import { buildNetwork, type Simulation, simulate } from '../../../src/circuit/index.ts';
import { loadEntries } from '../../../src/entries/index.ts';
import { type Replacement, studyReplacement } from '../../../src/wiring/replacement/index.ts';

const { entries } = loadEntries(fileURLToPath(new URL('../../../content', import.meta.url)));

/** Every shipped device, by id. */
export const devices: ReadonlyMap<string, Device> = new Map(
  [...entries.devices].map(([id, { data }]) => [id, data]),
);

/** Ids of every shipped system. */
export const systemIds = [...entries.systems.keys()];

const simulations = new Map<string, Simulation>();

/** A shipped system at rest in its modes; worked out once. */
export function shipped(id: string): Simulation {
  const known = simulations.get(id);
  if (known) return known;
  const entry = entries.systems.get(id);
  if (!entry) throw new RangeError(`no shipped system ${id}`);
  const made = simulate(buildNetwork(id, entry.data, devices));
  simulations.set(id, made);
  return made;
}

/** A shipped system's entry. */
export const entryOf = (id: string): System => entries.systems.get(id)!.data;

/** Beyond any number of combinations a shipped system has, so that all of them are compared. */
export const ALL = 2 ** 12;

/** One device in place of another, compared under all combinations unless told. */
export const study = (before: Simulation, item: string, device: string, most = ALL): Replacement =>
  studyReplacement(before, item, device, devices.get(device)!, most);

/** A circuit with a replacement done, as what the next replacement starts from. */
export const done = (replacement: Replacement): Simulation => simulate(replacement.changed.network);

/** Where each core goes: `W3.BN` → the new terminal, null where it has none. */
export const coresOf = ({ plan }: Replacement): Record<string, string | null> =>
  Object.fromEntries(
    plan.cores.map(({ cable, colour, now }) => [
      `${cable}.${colour}`,
      now === null ? null : now.slice(now.indexOf('.') + 1),
    ]),
  );

/** What is done with each link: `add L-COM`. */
export const linksOf = ({ plan }: Replacement): string[] =>
  plan.links.map(({ act, between }) => `${act} ${between.join('-')}`);
