import type { System } from '../../schemas/index.ts';
import { bodyReferenceProblems } from './body-references.ts';
import { expandAll } from './composition.ts';
import { deviceProblems } from './device-references.ts';
import { type Effects, fileSystem } from './effects.ts';
import { termProblems, titleProblems } from './entry-references.ts';
import { exceptionProblems } from './exception-references.ts';
import {
  aliasProblems,
  FIRM_CONTENT,
  type FirmLayer,
  featureProblems,
  type Hidden,
  hiddenBy,
  leftWithout,
  ownFeatureProblems,
  shown,
  withMarks,
  withoutExceptionsTo,
  withoutLinksTo,
} from './firm-layer.ts';
import { readFolder } from './folder.ts';
import { formerNameProblems, formerNamesIn, withCurrentNames } from './former-names.ts';
import { entryKey, KINDS, type Kind } from './kinds.ts';
import { mergeAll } from './merge.ts';
import { moduleProblems } from './module-references.ts';
import { overlay } from './overlay.ts';
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
  /** Systems with nothing wrong but what their prose reads: no entries, but they can be simulated. */
  readonly misread: ReadonlyMap<string, Candidate<System>>;
  /** In order of file and place. */
  readonly problems: readonly Problem[];
  /** Entries found, valid or not. */
  readonly files: number;
  /** Entries of the reference that a firm does not show, and symptoms that they alone could show. */
  readonly hidden: Hidden;
}

/**
 * Reads a content folder: `systems/`, `devices/`, `symptoms/`, `procedures/`,
 * `standards/`, `glossary/`, `modules/`, one `.mdx` file an entry. Every fault becomes a problem, all of them in one run; nothing is thrown.
 * An entry with a problem, or a system with such a device, is left out of the entries.
 * @param firm a firm's folder, laid over the content folder.
 */
export function loadEntries(root: string, effects: Effects = fileSystem, firm?: FirmLayer): Loaded {
  const ours = readFolder(root, effects);
  const firms = firm
    ? readFolder(firm.content, effects, { prefix: FIRM_CONTENT, optional: true })
    : { files: [], problems: [] };
  const isLeftIn = ({ kind, id }: { kind: Kind; id: string }) =>
    !firm?.without?.has(entryKey(KINDS[kind].folder, id));
  const firmsOwn = firms.files.map(readEntry).filter(isLeftIn);
  const layered = overlay(ours.files.map(readEntry), firmsOwn);
  const filesOf = (kind: Kind) => layered.files.filter((file) => file.kind === kind);

  const merged = mergeAll(new Map(filesOf('device').map((f) => [f.id, f.frontmatter])));
  const devices = validateAll('device', filesOf('device'), merged.devices);
  const symptoms = validateAll('symptom', filesOf('symptom'));
  const procedures = validateAll('procedure', filesOf('procedure'));
  const standards = validateAll('standard', filesOf('standard'));
  const glossary = validateAll('term', filesOf('term'));
  const modules = validateAll('module', filesOf('module'));
  const expanded = expandAll(filesOf('system'), {
    modules: dataOf(modules.accepted),
    devices: dataOf(devices.accepted),
  });
  const systems = validateAll('system', filesOf('system'), expanded.systems);

  const hiding = hiddenBy(firm, layered.files, systems.accepted);
  const { hidden } = hiding;
  const idsOf = (kind: Kind) =>
    new Set(filesOf(kind).flatMap(({ id }) => (hidden.get(kind)?.has(id) ? [] : [id])));
  const shownSystems = shown('system', systems.accepted, firm, hidden);
  const shownDevices = withMarks(shown('device', devices.accepted, firm, hidden), firm);
  const known = { devices: dataOf(shownDevices), ids: idsOf('device') };
  // A rule may name devices that are not shown: it is about every system there could be.
  const all = {
    devices: dataOf(devices.accepted),
    deviceIds: new Set(filesOf('device').map(({ id }) => id)),
  };
  const knownOfSymptoms = {
    systems: dataOf(shownSystems),
    devices: known.devices,
    deviceIds: known.ids,
    symptomIds: new Set(filesOf('symptom').map(({ id }) => id)),
    whole: shownSystems.size === idsOf('system').size && shownDevices.size === known.ids.size,
  };
  const unshown = leftWithout(hidden, symptoms.accepted, ({ data, places }) =>
    symptomProblems(data, places, knownOfSymptoms),
  );
  const withoutSymptoms = new Map([...hidden, ['symptom' as const, unshown]]);
  const shownSymptoms = shown('symptom', symptoms.accepted, firm, withoutSymptoms);
  const shownTerms = shown('term', glossary.accepted, firm, hidden);
  const terms = idsOf('term');
  const standardIds = idsOf('standard');

  const checked = {
    systems: crossCheck(
      withoutExceptionsTo(hidden, shownSystems),
      ({ data, places }) => [
        ...systemProblems(data, places, known),
        ...exceptionProblems(data, places, standardIds),
        ...featureProblems(data.features, ['features'], places, firm),
      ],
      ({ data, places, tags }) =>
        bodyReferenceProblems(tags, data, places, (item) =>
          known.devices.get(own(data.items, item)?.device ?? ''),
        ),
    ),
    devices: crossCheck(shownDevices, ({ data, places }) => deviceProblems(data, places)),
    symptoms: crossCheck(withoutLinksTo(unshown, shownSymptoms), ({ data, places }) =>
      symptomProblems(data, places, knownOfSymptoms),
    ),
    procedures: crossCheck(shown('procedure', procedures.accepted, firm, hidden), () => []),
    standards: crossCheck(
      shown('standard', standards.accepted, firm, hidden),
      ({ data, places, body }) => [
        ...standardProblems(data, places, body, { ...knownOfSymptoms, ...all }),
        ...featureProblems(data.applies?.features ?? [], ['applies', 'features'], places, firm),
      ],
    ),
    glossary: crossCheck(
      withoutLinksTo(hidden.get('term') ?? new Set(), shownTerms),
      ({ data, places }) => termProblems(data, places, terms),
    ),
    // What is not shown may still be composed from, like the devices that rules name.
    modules: crossCheck(modules.accepted, ({ data, places }) => [
      ...moduleProblems(data, places, {
        devices: all.devices,
        ids: all.deviceIds,
        modules: new Set([...modules.accepted.values()].map(({ id }) => id)),
      }),
      ...featureProblems(data.features, ['features'], places, firm),
    ]),
  };
  const naming = {
    problems: [
      ...aliasProblems(firm, layered.files, devices.accepted),
      ...ownFeatureProblems(firm),
    ],
  };
  const renaming = { problems: formerNameProblems(layered.files) };
  const stages = [
    ours,
    firms,
    layered,
    ...layered.files,
    merged,
    expanded,
    hiding,
    naming,
    renaming,
  ];
  const validated = [systems, devices, symptoms, procedures, standards, glossary, modules];
  const found = [...stages, ...validated, ...Object.values(checked)].flatMap((s) => s.problems);
  const notShown = new Set(
    layered.files.flatMap(({ kind, id, file }) => (hidden.get(kind)?.has(id) ? [file] : [])),
  );
  const entries: Entries = {
    systems: withValidDevices(checked.systems.valid, checked.devices.valid),
    devices: checked.devices.valid,
    symptoms: checked.symptoms.valid,
    procedures: checked.procedures.valid,
    standards: checked.standards.valid,
    glossary: checked.glossary.valid,
    modules: checked.modules.valid,
  };
  const told = found.filter(({ file }) => !notShown.has(file));
  return {
    entries,
    misread: withValidDevices(checked.systems.misread, checked.devices.valid),
    problems: inOrder(withCurrentNames(told, formerNamesIn(entries))),
    files: layered.files.length,
    hidden: withoutSymptoms,
  };
}

const dataOf = <T>(entries: ReadonlyMap<string, Entry<T>>): ReadonlyMap<string, T> =>
  new Map([...entries].map(([id, { data }]) => [id, data]));

interface CrossChecked<T> {
  readonly valid: ReadonlyMap<string, Entry<T>>;
  /** Those with nothing wrong but in their prose. */
  readonly misread: ReadonlyMap<string, Candidate<T>>;
  readonly problems: readonly Problem[];
}

/** Checks entries of one kind against the others; those with nothing wrong are valid. */
function crossCheck<T extends { readonly title: string }>(
  candidates: ReadonlyMap<string, Candidate<T>>,
  check: (entry: Candidate<T>) => readonly Problem[],
  checkProse: (entry: Candidate<T>) => readonly Problem[] = () => [],
): CrossChecked<T> {
  const titles = titleProblems(
    new Map(
      [...candidates].map(([id, { file, over, data, places }]) => {
        return [id, { file, ...(over === undefined ? {} : { over }), title: data.title, places }];
      }),
    ),
  );
  const valid = new Map<string, Entry<T>>();
  const misread = new Map<string, Candidate<T>>();
  const problems: Problem[] = [];
  for (const [id, candidate] of candidates) {
    const found = [...(titles.get(id) ?? []), ...check(candidate)];
    const foundInProse = checkProse(candidate);
    problems.push(...found, ...foundInProse);
    const { sound, soundBody, tags, over, ...entry } = candidate;
    if (!sound || found.length > 0) continue;
    if (soundBody && foundInProse.length === 0) valid.set(id, entry);
    else misread.set(id, candidate);
  }
  return { valid, misread, problems };
}

/** Systems whose every device is valid: the engine can be built from no others. */
function withValidDevices<E extends Entry<System>>(
  systems: ReadonlyMap<string, E>,
  devices: ReadonlyMap<string, unknown>,
): Map<string, E> {
  return new Map(
    [...systems].filter(([, { data }]) =>
      Object.values(data.items).every(({ device }) => devices.has(device)),
    ),
  );
}
