import type { z } from 'zod';
import type { Device, System } from '../../schemas/index.ts';
import { bodyProblems } from './body.ts';
import { deviceProblems } from './device-references.ts';
import { type Effects, fileSystem } from './effects.ts';
import { termProblems, titleProblems } from './entry-references.ts';
import { type ContentFile, readFolder } from './folder.ts';
import { type Frontmatter, readFrontmatter } from './frontmatter.ts';
import { type JsonSchema, jsonSchemaOf, KINDS, type Kind } from './kinds.ts';
import { mergeAll, type Written } from './merge.ts';
import { inOrder } from './problem.ts';
import { readText } from './read-text.ts';
import { systemProblems } from './system-references.ts';
import type { Entries, Entry, Places, Problem } from './types.ts';
import { NO_MESSAGE, schemaProblems } from './zod-problems.ts';

/** A content folder as read: its valid entries, and every problem of the others. */
export interface Loaded {
  readonly entries: Entries;
  /** In order of file and place. */
  readonly problems: readonly Problem[];
  /** Entry files found, valid or not. */
  readonly files: number;
}

/** What {@link KINDS} says of each kind's data. */
type DataOf<K extends Kind> = z.output<(typeof KINDS)[K]['schema']>;

/** An entry that its schema accepts, while the cross checks run. */
interface Candidate<T> extends Entry<T> {
  /** Whether nothing was found wrong with its file so far. */
  readonly sound: boolean;
}

/**
 * Reads a content folder: `systems/`, `devices/`, `procedures/`, `glossary/`, one `.mdx`
 * file an entry. Every fault becomes a problem, all of them in one run; nothing is thrown.
 * An entry with a problem, or a system with such a device, is left out of the entries.
 */
export function loadEntries(root: string, effects: Effects = fileSystem): Loaded {
  const folder = readFolder(root, effects);
  const problems: Problem[] = [...folder.problems];
  const read = folder.files.map((file) => readFile(file));
  problems.push(...read.flatMap((file) => file.problems));
  const idsOf = (kind: Kind) => new Set(read.filter((f) => f.kind === kind).map(({ id }) => id));

  const merged = mergeAll(
    new Map(read.filter((f) => f.kind === 'device').map((f) => [f.id, f.frontmatter])),
  );
  problems.push(...merged.problems);

  const candidates = <K extends Kind>(kind: K): Map<string, Candidate<DataOf<K>>> => {
    const schema = jsonSchemaOf(kind);
    const accepted = new Map<string, Candidate<DataOf<K>>>();
    const refused = new Map<string, readonly Problem[]>();
    for (const file of read.filter((f) => f.kind === kind)) {
      const written = kind === 'device' ? merged.devices.get(file.id) : writtenIn(file.frontmatter);
      if (!written) continue;
      const result = validate(kind, written, schema);
      if (result.data) accepted.set(file.id, candidate(file, written.places, result.data));
      else refused.set(file.id, result.problems);
    }
    for (const [id, found] of refused) {
      const base = merged.devices.get(id)?.data.extends;
      const inherited = kind === 'device' ? (refused.get(String(base)) ?? []) : [];
      problems.push(...found.filter((problem) => !inherited.some(sameFault(problem))));
    }
    return accepted;
  };
  const systems = candidates('system');
  const devices = candidates('device');
  const procedures = candidates('procedure');
  const glossary = candidates('term');

  const settle = <T extends { title: string }>(
    found: ReadonlyMap<string, Candidate<T>>,
    check: (entry: Candidate<T>) => readonly Problem[],
  ): Map<string, Entry<T>> => {
    const titles = titleProblems(
      new Map(
        [...found].map(([id, { file, data, places }]) => [id, { file, title: data.title, places }]),
      ),
    );
    const valid = new Map<string, Entry<T>>();
    for (const [id, entry] of found) {
      const own = [...(titles.get(id) ?? []), ...check(entry)];
      problems.push(...own);
      if (entry.sound && own.length === 0) valid.set(id, withoutMark(entry));
    }
    return valid;
  };
  const deviceIds = idsOf('device');
  const deviceData = new Map([...devices].map(([id, { data }]): [string, Device] => [id, data]));
  const validDevices = settle(devices, ({ data, places }) => deviceProblems(data, places));
  const known = { devices: deviceData, ids: deviceIds };
  const checkedSystems = settle(systems, ({ data, places }) => systemProblems(data, places, known));
  const termIds = idsOf('term');
  const entries: Entries = {
    systems: withValidDevices(checkedSystems, validDevices),
    devices: validDevices,
    procedures: settle(procedures, () => []),
    glossary: settle(glossary, ({ data, places }) => termProblems(data, places, termIds)),
  };
  return { entries, problems: inOrder(problems), files: folder.files.length };
}

/** A file's parts, before any schema. */
interface ReadFile {
  readonly kind: Kind;
  readonly id: string;
  readonly file: string;
  readonly frontmatter: Frontmatter;
  readonly problems: readonly Problem[];
}

function readFile({ kind, id, file, bytes }: ContentFile): ReadFile {
  const { source, text, problems } = readText(file, bytes);
  const frontmatter = readFrontmatter(source, text ?? '');
  // Bytes that are no text have been reported; what a reader makes of them is no matter.
  if (text === undefined) return { kind, id, file, frontmatter, problems };
  const body = bodyProblems(source, frontmatter.body, frontmatter.bodyOffset);
  return { kind, id, file, frontmatter, problems: [...problems, ...frontmatter.problems, ...body] };
}

/** A device that extends a faulty one has the fault too; it is reported where it is made. */
const sameFault = (a: Problem) => (b: Problem) => a.code === b.code && a.path === b.path;

const writtenIn = ({ data, places }: Frontmatter): Written | undefined => data && { data, places };

function validate<K extends Kind>(
  kind: K,
  { data, places }: Written,
  schema: JsonSchema,
): { readonly data?: DataOf<K>; readonly problems: readonly Problem[] } {
  const result = KINDS[kind].schema.safeParse(data, {
    reportInput: true,
    error: () => NO_MESSAGE,
  });
  if (result.success) return { data: result.data as DataOf<K>, problems: [] };
  return { problems: schemaProblems(result.error.issues, { data, places, schema }) };
}

function candidate<T>(read: ReadFile, places: Places, data: T): Candidate<T> {
  const { id, file, frontmatter, problems } = read;
  return {
    id,
    file,
    data,
    body: frontmatter.body,
    locate: (path) => frontmatter.places.value(path).position,
    places,
    sound: problems.length === 0,
  };
}

function withoutMark<T>({ sound: _, ...entry }: Candidate<T>): Entry<T> {
  return entry;
}

/** Systems whose every device is valid: the engine can be built from no others. */
function withValidDevices(
  systems: ReadonlyMap<string, Entry<System>>,
  devices: ReadonlyMap<string, unknown>,
): Map<string, Entry<System>> {
  return new Map(
    [...systems].filter(([, { data }]) =>
      Object.values(data.items).every(({ device }) => devices.has(device)),
    ),
  );
}
