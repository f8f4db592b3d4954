import { fileURLToPath } from 'node:url';
import type { Device, System } from '../../schemas/index.ts';
import { loadEntries } from '../../src/entries/index.ts';
import { type ComputedSystem, computeSystem } from '../../src/reference/compute.ts';

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));

let loaded: ReturnType<typeof loadEntries>['entries'] | undefined;

/** A shipped system wired or made otherwise than it is: what an entry could wrongly say. */
export function altered(
  id: string,
  edit: (system: System, devices: Map<string, Device>) => void,
): ComputedSystem {
  loaded ??= loadEntries(CONTENT).entries;
  const entry = loaded.systems.get(id);
  if (!entry) throw new RangeError(`no shipped system ${id}`);
  const devices = new Map(
    [...loaded.devices].map(([name, { data }]) => [name, structuredClone(data)] as const),
  );
  const data = structuredClone(entry.data);
  edit(data, devices);
  return computeSystem({ ...entry, data }, devices);
}
