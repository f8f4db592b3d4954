import type { EntriesFacts, EntryFacts } from './entry-facts.ts';
import { ENTRY_FIELDS, isSafety, moduleField, standardKind } from './entry-fields.ts';
import {
  type Context,
  type Field,
  fieldChanges,
  recordOf,
  type Says,
  texts,
  value,
} from './fields.ts';
import { type ChangeLine, type Found, lineOf } from './line.ts';
import { type Explained, type Inside, partChanges } from './parts.ts';
import type { ChangeKind } from './ranks.ts';
import { sectionChanges, withFigures } from './sections.ts';

type Named = Readonly<ChangeLine['systems'][number]>;

/** What a reader calls an entry of each folder. */
const FOLDERS: Readonly<Record<string, string>> = {
  devices: 'Device',
  procedures: 'Procedure',
  standards: 'House standard',
  symptoms: 'Complaint',
  glossary: 'Word',
  modules: 'Part to compose from',
};

/** An entry as it was and as it is, under its name of now. */
interface Pair {
  readonly id: string;
  readonly was: EntryFacts;
  readonly now: EntryFacts;
}

/** Where things stand: systems by the device in them, and which systems are in both states. */
export interface Where {
  readonly ofDevice: (id: string) => readonly Named[];
  /** Systems that are in both states, which alone are compared in words. */
  readonly systems: ReadonlyMap<string, Named>;
}

/** What differs inside devices as such, which is no change of each item that is one. */
export function explainedBy(before: EntriesFacts, after: EntriesFacts): Explained {
  return new Map(
    pairsIn('devices', before, after).map(({ id, was, now }) => [
      id,
      new Set(insideChanges(was.says, now.says).map(({ words }) => words)),
    ]),
  );
}

/** Everything that entries and the firm say otherwise, each once. */
export function entryChanges(
  before: EntriesFacts,
  after: EntriesFacts,
  where: Where,
): ChangeLine[] {
  const severityOf = (id: string) => {
    const found = [before, after].flatMap(
      ({ entries }) => entries.standards?.[id]?.says.severity ?? [],
    ) as ('danger' | 'fault' | 'advice')[];
    return (['danger', 'fault', 'advice'] as const).find((one) => found.includes(one));
  };
  const lines = Object.keys({ ...before.entries, ...after.entries }).flatMap((folder) => {
    const about = (id: string, { title }: EntryFacts) => ({
      title,
      path: folder === 'modules' ? null : `${folder}/${id}/`,
    });
    const systemsOf = (id: string) => {
      if (folder === 'devices') return where.ofDevice(id);
      const system = folder === 'systems' ? where.systems.get(id) : undefined;
      return system ? [system] : [];
    };
    const pairs = pairsIn(folder, before, after);
    const changed = pairs
      .filter(({ id }) => folder !== 'systems' || where.systems.has(id))
      .flatMap(({ id, was, now }) =>
        changesOf(folder, was, now, { was: was.says, now: now.says, severityOf }).map((found) => ({
          from: now.says.extends,
          line: lineOf(about(id, now), found, systemsOf(id)),
        })),
      );
    // Systems that come and go are told with their circuits.
    if (folder === 'systems') return changed.map(({ line }) => line);
    const paired = new Set(pairs.flatMap(({ was, now }) => [was, now]));
    const alone = (of: EntriesFacts, act: 'added' | 'removed') =>
      Object.entries(of.entries[folder] ?? {}).flatMap(([id, entry]) => {
        if (paired.has(entry)) return [];
        const path = act === 'added' ? about(id, entry) : { ...about(id, entry), path: null };
        const words = `${FOLDERS[folder] ?? 'Entry'} ${act === 'added' ? 'added' : 'withdrawn'}`;
        return [lineOf(path, { kind: kindOfWhole(folder, entry.says, act), words })];
      });
    return [...withoutInherited(changed), ...alone(before, 'removed'), ...alone(after, 'added')];
  });
  return [...lines, ...firmChanges(before.firm, after.firm)];
}

/** A change of a device, and the device that it extends. */
interface OfDevice {
  readonly from: unknown;
  readonly line: ChangeLine;
}

/** What a device has from the one it extends is told of that one, with the systems of both. */
function withoutInherited(changed: readonly OfDevice[]): ChangeLine[] {
  const isBase = (base: OfDevice, { from, line }: OfDevice) =>
    base.line.about.path === `devices/${from}/` &&
    base.line.kind === line.kind &&
    base.line.words === line.words;
  const isInherited = (one: OfDevice) => changed.some((base) => isBase(base, one));
  return changed
    .filter((one) => !isInherited(one))
    .map((base) => {
      const heirs = changed.filter((one) => isBase(base, one) && one !== base);
      const systems = [base, ...heirs].flatMap(({ line }) => line.systems);
      const each = new Map(systems.map((system) => [system.id, system]));
      return { ...base.line, systems: [...each.values()] };
    });
}

/** Entries that are there before and after, under the names of now. */
function pairsIn(folder: string, before: EntriesFacts, after: EntriesFacts): Pair[] {
  const old = before.entries[folder] ?? {};
  return Object.entries(after.entries[folder] ?? {}).flatMap(([id, now]) => {
    const was = [id, ...now.formerly].flatMap((name) => old[name] ?? [])[0];
    return was ? [{ id, was, now }] : [];
  });
}

/** Explanations with their figures in words; modes by the titles that they have now, else had. */
const spoken = (was: EntryFacts, now: EntryFacts) => {
  const modes = { ...recordOf(was.says.modes), ...recordOf(now.says.modes) };
  const titleOf = (mode: string) => {
    const { title } = recordOf(modes[mode]);
    return typeof title === 'string' ? title : mode;
  };
  return ({ sections }: EntryFacts) =>
    sections.map(({ heading, prose }) => ({ heading, prose: withFigures(prose, titleOf) }));
};

function changesOf(folder: string, was: EntryFacts, now: EntryFacts, context: Context): Found[] {
  const said = spoken(was, now);
  const fields = ENTRY_FIELDS[folder] ?? moduleFields(was.says, now.says);
  return [
    ...value('words', 'Title')(was.title, now.title, context),
    ...fieldChanges(fields, was.says, now.says, context),
    ...(folder === 'devices' ? insideChanges(was.says, now.says) : []),
    ...(folder === 'devices' ? namesInside(was.says, now.says, context) : []),
    ...sectionChanges(said(was), said(now)).map((words) => ({
      kind:
        folder === 'procedures' && isSafety(context)
          ? ('safety procedure' as const)
          : ('prose' as const),
      words,
    })),
  ];
}

const moduleFields = (was: Says, now: Says): Record<string, Field> =>
  Object.fromEntries(Object.keys({ ...was, ...now }).map((name) => [name, moduleField(name)]));

/** What differs inside a device, as grave as its family makes it. */
function insideChanges(was: Says, now: Says): Found[] {
  const families = [was.family, now.family];
  return partChanges(insideOf(was), insideOf(now)).map(({ kind, words }) => ({
    kind:
      kind === 'protection'
        ? 'protection'
        : families.includes('safety')
          ? 'cut-out'
          : families.includes('isolation')
            ? 'isolation'
            : 'part',
    words,
  }));
}

const insideOf = ({ elements, mechanism, outcomes }: Says): Inside =>
  ({ elements: elements ?? {}, mechanism: mechanism ?? null, outcomes: outcomes ?? {} }) as Inside;

/** What a reader calls the elements inside. */
function namesInside(was: Says, now: Says, context: Context): Found[] {
  const [old, is] = [recordOf(was.elements), recordOf(now.elements)];
  return Object.keys(is).flatMap((name) =>
    old[name] ? value('words', `Name of ${name}`)(old[name].name, is[name]!.name, context) : [],
  );
}

function kindOfWhole(folder: string, says: Says, act: 'added' | 'removed'): ChangeKind {
  const context = { was: says, now: says };
  if (folder === 'standards') return standardKind(context);
  if (folder === 'procedures' && isSafety(context)) return 'safety procedure';
  return act;
}

function firmChanges(was: Says | null, now: Says | null): ChangeLine[] {
  if (!was && !now) return [];
  const [old, is] = [was ?? {}, now ?? {}];
  const fields: Record<string, Field> = {
    name: value('firm', 'Name'),
    contact: (a, b, context) =>
      Object.keys({ ...recordOf(a), ...recordOf(b) }).flatMap((way) =>
        value('firm', `How to reach it, ${way}`)(recordOf(a)[way], recordOf(b)[way], context),
      ),
    instrument: value('reading', 'Instrument that readings are first shown on'),
    region: value('reading', 'Region'),
    cautions: texts('caution', 'Caution of the house'),
  };
  const title = String(is.name ?? old.name ?? 'The firm');
  return fieldChanges(fields, old, is).map((found) => lineOf({ title, path: null }, found));
}
