import type { Device, Standard, StandardRule } from '../../schemas/index.ts';
import { among } from './problem.ts';
import { type Report, reportFor } from './report.ts';
import type { SymptomsKnown } from './symptom-references.ts';
import type { Path, Places, Problem } from './types.ts';

/** What a standard's checks know of the other entries. */
export type StandardsKnown = Pick<SymptomsKnown, 'devices' | 'deviceIds' | 'whole'>;

/** Names that devices give to what lies inside them, by where a rule uses them. */
const NAMES: readonly {
  readonly key: string;
  readonly what: 'outcome' | 'element';
  readonly of: (device: Device) => readonly string[];
}[] = [
  { key: 'contact', what: 'element', of: contacts },
  { key: 'stops', what: 'outcome', of: ({ outcomes }) => Object.keys(outcomes) },
];

const NOUNS = { outcome: 'an outcome', element: 'a contact' } as const;

function contacts({ elements }: Device): readonly string[] {
  return Object.keys(elements).filter((name) => elements[name]!.kind === 'contact');
}

/** Every name in a standard that a device must declare, and whether it says why it exists. */
export function standardProblems(
  standard: Standard,
  places: Places,
  body: string,
  known: StandardsKnown,
): readonly Problem[] {
  const report = reportFor(places);
  if (body.trim() === '') {
    const message = 'the body does not say why this standard exists';
    report.key('standard-without-why', ['title'], message);
  }
  for (const [path, id] of devicesIn(standard.rule)) {
    if (known.deviceIds.has(id)) continue;
    const message = `there is no device “${id}”`;
    report.value('device-unknown', path, message, among(id, known.deviceIds));
  }
  if (known.whole) checkNames(report, standard.rule, places, known.devices);
  return report.problems;
}

/** Devices that a rule names, each with its place. */
function devicesIn(rule: StandardRule): [Path, string][] {
  const given = rule as Readonly<Record<string, unknown>>;
  return ['device', 'devices'].flatMap((key): [Path, string][] => {
    const value = given[key];
    if (typeof value === 'string') return [[['rule', key], value]];
    if (!Array.isArray(value)) return [];
    return value.map((id, i) => [['rule', key, i], String(id)]);
  });
}

/** Names the author wrote; what the schema fills in may be without a device that has it. */
function checkNames(
  report: Report,
  rule: StandardRule,
  places: Places,
  devices: ReadonlyMap<string, Device>,
): void {
  const given = rule as Readonly<Record<string, unknown>>;
  for (const { key, what, of } of NAMES) {
    if (!places.has(['rule', key])) continue;
    const declared = new Set([...devices.values()].flatMap(of));
    [given[key]].flat().forEach((name, i) => {
      if (typeof name !== 'string' || declared.has(name)) return;
      const path = Array.isArray(given[key]) ? ['rule', key, i] : ['rule', key];
      const message = `no device has ${NOUNS[what]} “${name}”`;
      report.value(`${what}-undeclared`, path, message, among(name, declared));
    });
  }
}
