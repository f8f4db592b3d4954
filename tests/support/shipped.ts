import { fileURLToPath } from 'node:url';
import { loadEntries } from '../../src/entries/index.ts';
import { type ComputedSystem, computeSystem } from '../../src/reference/compute.ts';

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));

let computed: readonly ComputedSystem[] | undefined;

/** Every shipped system with all that is computed of it; made once a process. */
export function shippedSystems(): readonly ComputedSystem[] {
  if (computed) return computed;
  const { entries } = loadEntries(CONTENT);
  const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
  computed = [...entries.systems.values()].map((entry) => computeSystem(entry, devices));
  return computed;
}

/** One shipped system. */
export function shippedSystem(id: string): ComputedSystem {
  const found = shippedSystems().find((system) => system.id === id);
  if (!found) throw new RangeError(`no shipped system ${id}`);
  return found;
}
