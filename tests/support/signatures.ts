import { fileURLToPath } from 'node:url';
import { buildNetwork, type Simulation, simulate } from '../../src/circuit/index.ts';
import { type Signatures, signaturesOf } from '../../src/diagnosis/index.ts';
import { loadEntries } from '../../src/entries/index.ts';
import { testPairs } from '../../src/wiring/index.ts';

const { entries } = loadEntries(fileURLToPath(new URL('../../content', import.meta.url)));
const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));

/** Every shipped symptom, by entry id. */
export const symptoms = new Map([...entries.symptoms].map(([id, { data }]) => [id, data]));

/** Ids of every shipped system. */
export const ids = [...entries.systems.keys()];

interface Shipped {
  readonly simulation: Simulation;
  readonly signatures: Signatures;
}
const made = new Map<string, Shipped>();

/** A shipped system with what each of its faults shows; made once a test file. */
export function shipped(id: string): Shipped {
  const known = made.get(id);
  if (known) return known;
  const simulation = simulate(buildNetwork(id, entries.systems.get(id)!.data, devices));
  const signatures = signaturesOf(simulation, testPairs(simulation.network));
  made.set(id, { simulation, signatures });
  return { simulation, signatures };
}
