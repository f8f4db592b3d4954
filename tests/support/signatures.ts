import { fileURLToPath } from 'node:url';
import { loadEntries } from '../../src/entries/index.ts';
import { shippedSystem } from './shipped.ts';

const { entries } = loadEntries(fileURLToPath(new URL('../../content', import.meta.url)));

/** Every shipped symptom, by entry id. */
export const symptoms = new Map([...entries.symptoms].map(([id, { data }]) => [id, data]));

/** Ids of every shipped system. */
export const ids = [...entries.systems.keys()];

/** A shipped system with what each of its faults shows; made once a run. */
export const shipped = shippedSystem;
