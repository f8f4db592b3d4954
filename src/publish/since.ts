import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { EntriesFacts, type ReferenceFacts, SystemFacts } from '../changes/index.ts';

/** An earlier build, as far as a comparison needs it. */
export interface EarlierBuild extends ReferenceFacts {
  readonly version: string;
  /** YYYY-MM-DD. */
  readonly date: string;
  /** Reads another file of its data folder; undefined where it is not there. */
  readonly further: <T>(path: string, schema: z.ZodType<T>) => Promise<T | undefined>;
}

const Index = z.object({
  reference: z.object({ version: z.string(), date: z.iso.date() }),
  systems: z.array(z.object({ id: z.string(), data: z.string().regex(/^systems\/[\w-]+\.json$/) })),
});

/** What reading needs of the file system; tests give their own. */
export type ReadText = (file: string) => Promise<string>;

/**
 * Reads the open data of an earlier build.
 * @param folder a built site, or its `data` folder.
 * @throws Error that names the file, what is wrong with it and what to give instead.
 */
export async function readBuild(
  folder: string,
  read: ReadText = (file) => readFile(file, 'utf8'),
): Promise<EarlierBuild> {
  const data = await dataFolder(folder, read);
  const index = parsed(Index, join(data, 'index.json'), await read(join(data, 'index.json')));
  const systems = new Map<string, SystemFacts>();
  for (const { id, data: path } of index.systems) {
    const file = join(data, path);
    systems.set(id, parsed(SystemFacts, file, await text(file, read)));
  }
  const further: EarlierBuild['further'] = async (path, schema) => {
    const json = await read(join(data, path)).catch(() => undefined);
    return json === undefined ? undefined : parsed(schema, join(data, path), json, SPARE);
  };
  const entries = await further('entries.json', EntriesFacts);
  return { ...index.reference, systems, entries, further };
}

async function dataFolder(folder: string, read: ReadText): Promise<string> {
  for (const data of [join(folder, 'data'), folder]) {
    const there = await read(join(data, 'index.json')).then(
      () => true,
      () => false,
    );
    if (there) return data;
  }
  throw new Error(
    `${folder} is no earlier build: it holds neither data/index.json nor index.json. Give the folder a build wrote, or its data folder`,
  );
}

async function text(file: string, read: ReadText): Promise<string> {
  try {
    return await read(file);
  } catch {
    throw new Error(`${file} is missing: the earlier build names it in its index.json`);
  }
}

const WHOLE = 'A build made before this version said what systems are made of cannot be compared';
const SPARE = 'Delete the file, and this build says what changed since that one';

function parsed<T>(schema: z.ZodType<T>, file: string, json: string, mend = WHOLE): T {
  let value: unknown;
  try {
    value = JSON.parse(json);
  } catch (failure) {
    throw new Error(`${file} is not JSON: ${(failure as Error).message}`);
  }
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const [{ path, message }] = result.error.issues as [z.core.$ZodIssue];
  throw new Error(
    `${file} is not what a build writes: ${path.join('.') || 'the whole'}: ${message}. ${mend}`,
  );
}
