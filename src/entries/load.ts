import type { System } from '../../schemas/index.ts';
import { bodyReferenceProblems } from './body-references.ts';
import { deviceProblems } from './device-references.ts';
import { type Effects, fileSystem } from './effects.ts';
import { termProblems, titleProblems } from './entry-references.ts';
import { exceptionProblems } from './exception-references.ts';
import { readFolder } from './folder.ts';
import type { Kind } from './kinds.ts';
import { mergeAll } from './merge.ts';
import { inOrder } from './problem.ts';
import { readEntry } from './read-entry.ts';
import { own } from './report.ts';
import { standardProblems } from './standard-references.ts';
import { symptomProblems } from './symptom-references.ts';
import { systemProblems } from './system-references.ts';
import type { Entries, Entry, Problem } from './types.ts';
import { type Candidate, validateAll } from './validate.ts';

/** A content folder as read: its valid entries, and every problem of the others. */
export interface Loaded {
  readonly entries: Entries;
  /** In order of file and place. */
  readonly problems: readonly Problem[];
  /** Entry files found, valid or not. */
  readonly files: number;
}

/**
 * Reads a content folder: `systems/`, `devices/`, `symptoms/`, `procedures/`,
 * `standards/`, `glossary/`, one `.mdx` file an entry. Every fault becomes a problem, all of them in one run; nothing is thrown.
 * An entry with a problem, or a system with such a device, is left out of the entries.
 */
export function loadEntries(root: string, effects: Effects = fileSystem): Loaded {
  const folder = readFolder(root, effects);
  const read = folder.files.map(readEntry);
  const filesOf = (kind: Kind) => read.filter((file) => file.kind === kind);
  const idsOf = (kind: Kind) => new Set(filesOf(kind).map(({ id }) => id));

  const merged = mergeAll(new Map(filesOf('device').map((f) => [f.id, f.frontmatter])));
  const systems = validateAll('system', filesOf('system'));
  const devices = validateAll('device', filesOf('device'), merged.devices);
  const symptoms = validateAll('symptom', filesOf('symptom'));
  const procedures = validateAll('procedure', filesOf('procedure'));
  const standards = validateAll('standard', filesOf('standard'));
  const glossary = validateAll('term', filesOf('term'));

  const known = { devices: dataOf(devices.accepted), ids: idsOf('device') };
  const terms = idsOf('term');
  const standardIds = idsOf('standard');
  const knownOfSymptoms = {
    systems: dataOf(systems.accepted),
    devices: known.devices,
    deviceIds: known.ids,
    symptomIds: idsOf('symptom'),
    whole:
      systems.accepted.size === filesOf('system').length &&
      devices.accepted.size === known.ids.size,
  };
  const checked = {
    systems: crossCheck(systems.accepted, ({ data, places, tags }) => [
      ...systemProblems(data, places, known),
      ...exceptionProblems(data, places, standardIds),
      ...bodyReferenceProblems(tags, data, places, (item) =>
        known.devices.get(own(data.items, item)?.device ?? ''),
      ),
    ]),
    devices: crossCheck(devices.accepted, ({ data, places }) => deviceProblems(data, places)),
    symptoms: crossCheck(symptoms.accepted, ({ data, places }) =>
      symptomProblems(data, places, knownOfSymptoms),
    ),
    procedures: crossCheck(procedures.accepted, () => []),
    standards: crossCheck(standards.accepted, ({ data, places, body }) =>
      standardProblems(data, places, body, knownOfSymptoms),
    ),
    glossary: crossCheck(glossary.accepted, ({ data, places }) =>
      termProblems(data, places, terms),
    ),
  };
  const stages = [
    folder,
    ...read,
    merged,
    systems,
    devices,
    symptoms,
    procedures,
    standards,
    glossary,
  ];
  return {
    entries: {
      systems: withValidDevices(checked.systems.valid, checked.devices.valid),
      devices: checked.devices.valid,
      symptoms: checked.symptoms.valid,
      procedures: checked.procedures.valid,
      standards: checked.standards.valid,
      glossary: checked.glossary.valid,
    },
    problems: inOrder([...stages, ...Object.values(checked)].flatMap(({ problems }) => problems)),
    files: folder.files.length,
  };
}

const dataOf = <T>(entries: ReadonlyMap<string, Entry<T>>): ReadonlyMap<string, T> =>
  new Map([...entries].map(([id, { data }]) => [id, data]));

interface CrossChecked<T> {
  readonly valid: ReadonlyMap<string, Entry<T>>;
  readonly problems: readonly Problem[];
}

/** Checks entries of one kind against the others; those with nothing wrong are valid. */
function crossCheck<T extends { readonly title: string }>(
  candidates: ReadonlyMap<string, Candidate<T>>,
  check: (entry: Candidate<T>) => readonly Problem[],
): CrossChecked<T> {
  const titles = titleProblems(
    new Map(
      [...candidates].map(([id, { file, data, places }]) => {
        return [id, { file, title: data.title, places }];
      }),
    ),
  );
  const valid = new Map<string, Entry<T>>();
  const problems: Problem[] = [];
  for (const [id, candidate] of candidates) {
    const found = [...(titles.get(id) ?? []), ...check(candidate)];
    problems.push(...found);
    const { sound, tags, ...entry } = candidate;
    if (sound && found.length === 0) valid.set(id, entry);
  }
  return { valid, problems };
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
