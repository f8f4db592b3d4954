import { fileURLToPath } from 'node:url';
import type { Device, System } from '../../schemas/index.ts';
import { type CircuitData, circuitData } from '../../src/data/index.ts';
import { type Entry, loadEntries } from '../../src/entries/index.ts';
import { computeSystem } from '../../src/reference/compute.ts';

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));
const { entries } = loadEntries(CONTENT);

/** What an edit may change: one system and the devices. */
export interface Draft {
  readonly system: System;
  readonly devices: Record<string, Device>;
}

/** A shipped system with an edit made, as open data. */
export function edited(id: string, edit: (draft: Draft) => void = () => {}): CircuitData {
  const entry = entries.systems.get(id) as Entry<System>;
  const draft: Draft = structuredClone({
    system: entry.data,
    devices: Object.fromEntries([...entries.devices].map(([name, { data }]) => [name, data])),
  });
  edit(draft);
  return circuitData(
    computeSystem({ ...entry, data: draft.system }, new Map(Object.entries(draft.devices))),
  );
}
