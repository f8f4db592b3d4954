/** The open form of everything computed: the door to this room. */
import { z } from 'zod';
import type { ComputedSystem, Reference } from '../reference/index.ts';
import { EntriesData, entriesData } from './entries-data.ts';
import { IndexData, indexData } from './index-data.ts';
import { StandardsData, standardsData } from './standards-data.ts';
import { SystemData, systemData } from './system-data.ts';

export { CablesData, cablesData } from './cables-data.ts';
export { Definition } from './definition.ts';
export { EntriesData, entriesData } from './entries-data.ts';
export { IndexData, indexData } from './index-data.ts';
export { ReplacementsData, replacementsData } from './replacements-data.ts';
export { StandardsData, standardsData } from './standards-data.ts';
export {
  type CircuitData,
  circuitData,
  DATA_VERSION,
  SystemData,
  systemData,
} from './system-data.ts';

/**
 * Every data file of a reference but those of its systems, by its path inside the data folder,
 * as JSON text.
 */
export function dataFiles(reference: Reference): Map<string, string> {
  const files = new Map<string, string>();
  const put = (path: string, value: unknown) => files.set(path, `${JSON.stringify(value)}\n`);
  put('index.json', indexData(reference));
  put('entries.json', entriesData(reference));
  put('standards.json', standardsData(reference));
  put('schemas/entries.schema.json', z.toJSONSchema(EntriesData));
  put('schemas/index.schema.json', z.toJSONSchema(IndexData));
  put('schemas/standards-data.schema.json', z.toJSONSchema(StandardsData));
  put('schemas/system-data.schema.json', z.toJSONSchema(SystemData));
  return files;
}

/** The data file of one system, as JSON text. */
export const systemDataFile = (system: ComputedSystem): string =>
  `${JSON.stringify(systemData(system))}\n`;
