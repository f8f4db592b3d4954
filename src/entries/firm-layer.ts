import { type Device, FEATURES, type OwnFeature, type System } from '../../schemas/index.ts';
import { KINDS, type Kind } from './kinds.ts';
import { FOLDERS } from './overlay.ts';
import { among } from './problem.ts';
import type { ReadEntry } from './read-entry.ts';
import { own, reportFor } from './report.ts';
import type { Places, Problem } from './types.ts';
import type { Candidate } from './validate.ts';

/** What a firm's settings say of entries, beside the folder of its own. */
export interface FirmLayer {
  /** Folder of the firm's entries. */
  readonly content: string;
  /** Entries of the reference that are not shown, as `systems/combi-two-wire`. */
  readonly hide: readonly string[];
  readonly aliases: {
    /** Names by entry, as `systems/combi-two-wire`. */
    readonly entries: Readonly<Record<string, readonly string[]>>;
    /** Names by device and terminal. */
    readonly terminals: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>>;
  };
  /** Features of the firm's own, by name; absent where its settings cannot be read. */
  readonly features?: Readonly<Record<string, OwnFeature>>;
  /** The firm's own entries that are left out, as `systems/our-combi`: drafts, where it publishes. */
  readonly without?: ReadonlySet<string>;
  /** Where these stand in the settings. */
  readonly places: Places;
}

/** Stands before the paths of a firm's files in problems, and in no entry's path. */
export const FIRM_CONTENT = 'firm/content/';

/** Procedures that every page leads to before an act that can kill; they may be replaced. */
const ALWAYS_SHOWN: readonly string[] = ['safe-isolation', 'dead-tests', 'live-tests'];

/** Ids of hidden entries by kind. */
export type Hidden = ReadonlyMap<Kind, ReadonlySet<string>>;

/** What is hidden, and what is wrong with the list of it; what is needed stays. */
export function hiddenBy(
  layer: FirmLayer | undefined,
  files: readonly ReadEntry[],
  systems: ReadonlyMap<string, { readonly data: System }>,
): { readonly hidden: Hidden; readonly problems: readonly Problem[] } {
  const hidden = new Map<Kind, Set<string>>();
  if (!layer) return { hidden, problems: [] };
  const report = reportFor(layer.places);
  const byPath = new Map(files.map((file) => [pathOf(file), file]));
  layer.hide.forEach((path, i) => {
    const file = byPath.get(path);
    const at = ['hide', i];
    if (!file) {
      const ours = files.filter(({ origin }) => origin === 'reference').map(pathOf);
      report.value('entry-unknown', at, `there is no entry “${path}” to hide`, among(path, ours));
      return;
    }
    const needed = whyNeeded(file, layer.hide, systems);
    if (file.origin !== 'reference') {
      const message = 'this entry is the firm’s own; one that is not wanted is taken out';
      report.value('hidden-own', at, message, { found: file.file });
    } else if (needed)
      report.value('hidden-needed', at, needed.message, { found: path, allowed: needed.allowed });
    else hidden.set(file.kind, (hidden.get(file.kind) ?? new Set()).add(file.id));
  });
  return { hidden, problems: report.problems };
}

const pathOf = ({ kind, id }: Pick<ReadEntry, 'kind' | 'id'>) => `${KINDS[kind].folder}/${id}`;

function whyNeeded(
  { kind, id }: ReadEntry,
  hide: readonly string[],
  systems: ReadonlyMap<string, { readonly data: System }>,
): { readonly message: string; readonly allowed: string } | undefined {
  if (kind === 'procedure' && ALWAYS_SHOWN.includes(id))
    return {
      message: 'every page leads to this procedure before an act that can kill',
      allowed: `an entry of yours in its place, with replaces: ${id}`,
    };
  if (kind !== 'device') return undefined;
  const users = [...systems]
    .filter(([, { data }]) => Object.values(data.items).some(({ device }) => device === id))
    .map(([system]) => pathOf({ kind: 'system', id: system }))
    .filter((path) => !hide.includes(path));
  if (users.length === 0) return undefined;
  return {
    message: `systems that are shown are made of “${id}”`,
    allowed: `hidden together with ${users.join(', ')}`,
  };
}

/**
 * Hidden symptoms, and those of the reference that no system can show once others are hidden:
 * they go with them, for nobody could mend them.
 */
export function leftWithout<T>(
  hidden: Hidden,
  symptoms: ReadonlyMap<string, Candidate<T>>,
  problemsOf: (symptom: Candidate<T>) => readonly Problem[],
): ReadonlySet<string> {
  const gone = hidden.get('symptom') ?? new Set<string>();
  if (hidden.size === 0) return gone;
  const lost = [...symptoms].filter(
    ([, one]) => one.origin === 'reference' && problemsOf(one).length > 0,
  );
  return new Set([...gone, ...lost.map(([id]) => id)]);
}

/** The reference's entries without their links to others that are not shown. */
export function withoutLinksTo<T extends { readonly see: readonly string[] }>(
  gone: ReadonlySet<string>,
  entries: ReadonlyMap<string, Candidate<T>>,
): ReadonlyMap<string, Candidate<T>> {
  if (gone.size === 0) return entries;
  return new Map(
    [...entries].map(([id, entry]) => {
      if (entry.origin === 'added') return [id, entry];
      const see = entry.data.see.filter((other) => !gone.has(other));
      return [id, { ...entry, data: { ...entry.data, see } }];
    }),
  );
}

/** The reference's systems without their exceptions to standards that are not shown. */
export function withoutExceptionsTo(
  hidden: Hidden,
  systems: ReadonlyMap<string, Candidate<System>>,
): ReadonlyMap<string, Candidate<System>> {
  const gone = hidden.get('standard');
  if (!gone) return systems;
  return new Map(
    [...systems].map(([id, entry]) => {
      if (entry.origin === 'added') return [id, entry];
      const exceptions = entry.data.exceptions.filter(({ standard }) => !gone.has(standard));
      return [id, { ...entry, data: { ...entry.data, exceptions } }];
    }),
  );
}

type Named = { readonly title: string; readonly aliases: readonly string[] };

/** Entries of one kind with the firm's names for them beside their own, and without the hidden. */
export function shown<T extends Named>(
  kind: Kind,
  accepted: ReadonlyMap<string, Candidate<T>>,
  layer: FirmLayer | undefined,
  hidden: Hidden,
): Map<string, Candidate<T>> {
  const left = [...accepted].filter(([id]) => !hidden.get(kind)?.has(id));
  return new Map(
    left.map(([id, candidate]) => {
      const more = layer && own(layer.aliases.entries, `${KINDS[kind].folder}/${id}`);
      if (!more) return [id, candidate];
      const { data } = candidate;
      return [id, { ...candidate, data: { ...data, aliases: joined(data.aliases, more) } }];
    }),
  );
}

/** The same list with the names that it does not hold, whatever their case. */
function joined(names: readonly string[], more: readonly string[]): string[] {
  const there = new Set(names.map((name) => name.toLowerCase()));
  return [...names, ...more.filter((name) => !there.has(name.toLowerCase()))];
}

/** The firm's names for a device's terminals; those of the device it extends hold for it too. */
export function firmMarks(
  { terminals }: FirmLayer['aliases'],
  id: string,
  devices: ReadonlyMap<string, { readonly data: Device }>,
): Readonly<Record<string, readonly string[]>> {
  const base = devices.get(id)?.data.extends;
  const inherited =
    base === undefined || base === id ? {} : firmMarks({ entries: {}, terminals }, base, devices);
  return { ...inherited, ...own(terminals, id) };
}

/** Devices with the firm's names for their terminals beside the terminals' other names. */
export function withMarks(
  devices: ReadonlyMap<string, Candidate<Device>>,
  layer: FirmLayer | undefined,
): Map<string, Candidate<Device>> {
  if (!layer) return new Map(devices);
  return new Map(
    [...devices].map(([id, candidate]) => {
      const marks = firmMarks(layer.aliases, id, devices);
      const terminals = Object.fromEntries(
        Object.entries(candidate.data.terminals).map(([name, terminal]) => [
          name,
          { ...terminal, aliases: joined(terminal.aliases, own(marks, name) ?? []) },
        ]),
      );
      return [id, { ...candidate, data: { ...candidate.data, terminals } }];
    }),
  );
}

/** Names given to entries or terminals that are not there. */
export function aliasProblems(
  layer: FirmLayer | undefined,
  files: readonly ReadEntry[],
  devices: ReadonlyMap<string, { readonly data: Device }>,
): readonly Problem[] {
  if (!layer) return [];
  const report = reportFor(layer.places);
  const paths = files.map(pathOf);
  for (const path of Object.keys(layer.aliases.entries)) {
    if (paths.includes(path)) continue;
    const message = `there is no entry “${path}” to name`;
    report.key('entry-unknown', ['aliases', 'entries', path], message, among(path, paths));
  }
  const ids = files.filter(({ kind }) => kind === 'device').map(({ id }) => id);
  for (const [id, terminals] of Object.entries(layer.aliases.terminals)) {
    const at = ['aliases', 'terminals', id];
    if (!ids.includes(id)) {
      report.key('device-unknown', at, `there is no device “${id}”`, among(id, ids));
      continue;
    }
    const known = devices.get(id)?.data.terminals;
    for (const name of known ? Object.keys(terminals) : []) {
      if (own(known!, name)) continue;
      const message = `${id} has no terminal “${name}”`;
      report.key('terminal-undeclared', [...at, name], message, among(name, Object.keys(known!)));
    }
  }
  return report.problems;
}

/** Headings under which readers choose by what the reference has. */
const HEADINGS: readonly string[] = ['boiler', 'control', 'also there'];

/** Features of the firm's own that bear a name or stand under a heading of the reference's. */
export function ownFeatureProblems(layer: FirmLayer | undefined): readonly Problem[] {
  if (!layer) return [];
  const report = reportFor(layer.places);
  for (const [name, { under }] of Object.entries(layer.features ?? {})) {
    const at = ['features', name];
    if ((FEATURES as readonly string[]).includes(name)) {
      const message = `the reference has the feature “${name}” already`;
      report.key('feature-taken', at, message, {
        found: name,
        allowed: `a name that none of these bears: ${FEATURES.join(', ')}`,
      });
    }
    if (under !== undefined && HEADINGS.includes(under.toLowerCase())) {
      const message = `the reference has the heading “${under}” already`;
      report.value('feature-taken', [...at, 'under'], message, {
        found: under,
        allowed: 'another heading, or none: it then stands under “Also there”',
      });
    }
  }
  return report.problems;
}

const OWN_FEATURES = 'A feature of the firm’s own stands in firm.yaml first, under features';

/**
 * Features that neither the reference has nor the firm's settings add.
 * @param path where they stand in the entry
 */
export function featureProblems(
  features: readonly string[],
  path: readonly (string | number)[],
  places: Places,
  layer: FirmLayer | undefined,
): readonly Problem[] {
  if (layer && !layer.features) return [];
  const report = reportFor(places);
  const known = [...FEATURES, ...Object.keys(layer?.features ?? {})];
  for (const [i, feature] of features.entries())
    if (!known.includes(feature))
      report.value('value-not-allowed', [...path, i], `there is no feature “${feature}”`, {
        ...among(feature, known),
        ...(layer ? { mend: OWN_FEATURES } : {}),
      });
  return report.problems;
}

/** Kind and id of an entry by its path, as `systems/combi-two-wire`. */
export function entryAt(path: string): { readonly kind: Kind; readonly id: string } | undefined {
  const [folder = '', id = ''] = path.split('/');
  const kind = own(FOLDERS, folder);
  return kind && { kind, id };
}
