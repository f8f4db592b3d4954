import {
  type Appearance,
  canShow,
  type Device,
  hasFuse,
  itemsOfSign,
  type Sign,
  type SignItem,
  type Symptom,
  type System,
} from '../../schemas/index.ts';
import { among } from './problem.ts';
import { own, type Report, reportFor } from './report.ts';
import type { Path, Places, Problem } from './types.ts';

/** What a symptom's checks know of the other entries. */
export interface SymptomsKnown {
  /** Systems and devices that their schema accepts. */
  readonly systems: ReadonlyMap<string, System>;
  readonly devices: ReadonlyMap<string, Device>;
  /** Every device file and every symptom file there is. */
  readonly deviceIds: ReadonlySet<string>;
  readonly symptomIds: ReadonlySet<string>;
  /** Whether all files of systems and devices are among the accepted; else none is called missing. */
  readonly whole: boolean;
}

/** Every name in a symptom that another entry must declare, and whether any system can show it. */
export function symptomProblems(
  symptom: Symptom,
  places: Places,
  known: SymptomsKnown,
): readonly Problem[] {
  const report = reportFor(places);
  symptom.see.forEach((id, i) => {
    if (known.symptomIds.has(id)) return;
    const details = among(id, known.symptomIds);
    report.value('symptom-unknown', ['see', i], `there is no symptom “${id}”`, details);
  });
  symptom.shows.forEach((appearance, i) => {
    const before = report.problems.length;
    appearance.signs.forEach((sign, j) => {
      checkSign(report, sign, ['shows', i, 'signs', j], known);
    });
    if (report.problems.length > before || !known.whole) return;
    if (systemsShowing(appearance, known.systems, known.devices).length > 0) return;
    const message = `no system can show these signs together${lacks(appearance, known)}`;
    report.value('symptom-unshown', ['shows', i], message);
  });
  return report.problems;
}

/** Ids of the systems that can show all signs of an appearance. */
export function systemsShowing(
  { signs }: Appearance,
  systems: ReadonlyMap<string, System>,
  devices: ReadonlyMap<string, Device>,
): string[] {
  return [...systems].flatMap(([id, system]) => {
    const items = itemsIn(system, devices);
    return signs.every((sign) => canShow(sign, items, system.modes)) ? [id] : [];
  });
}

/** At most this many systems are told apart in a message. */
const MOST_NAMED = 3;

/** What each system lacks for an appearance, as the end of a sentence. */
function lacks({ signs }: Appearance, { systems, devices }: SymptomsKnown): string {
  const each = [...systems].map(([id, system]) => {
    const items = itemsIn(system, devices);
    const sign = signs.find((one) => !canShow(one, items, system.modes))!;
    const what = 'fuse' in sign ? 'a fuse' : `the outcome ${sign.outcome}`;
    if (itemsOfSign(sign, items).length === 0) return `${id} has no ${sign.family} with ${what}`;
    if ('fuse' in sign) return `${id} is never isolated`;
    const mode = sign.modes.find((one) => !canShow({ ...sign, modes: [one] }, items, system.modes));
    return own(system.modes, mode!)
      ? `nobody looks at ${id} in ${mode}`
      : `${id} has no mode ${mode}`;
  });
  const more = each.length > MOST_NAMED ? ', and so on' : '';
  return each.length === 0 ? '' : `: ${each.slice(0, MOST_NAMED).join(', ')}${more}`;
}

/** Items of a system with their devices, as signs are matched against them. */
export const itemsIn = (system: System, devices: ReadonlyMap<string, Device>): SignItem[] =>
  Object.entries(system.items).flatMap(([item, { device: deviceId }]) => {
    const device = devices.get(deviceId);
    return device ? [{ item, deviceId, device }] : [];
  });

function checkSign(report: Report, sign: Sign, path: Path, known: SymptomsKnown): void {
  sign.devices?.forEach((id, i) => {
    checkDevice(report, sign, id, [...path, 'devices', i], known);
  });
  if (!sign.devices) checkFamily(report, sign, path, known);
  if ('fuse' in sign || !known.whole) return;
  const modes = new Set([...known.systems.values()].flatMap((system) => Object.keys(system.modes)));
  sign.modes.forEach((mode, i) => {
    if (modes.has(mode)) return;
    const message = `no system has a mode “${mode}”`;
    report.value('mode-unknown', [...path, 'modes', i], message, among(mode, modes));
  });
}

/** Checks a device that a sign names: it is there, of the family, and shows such a sign. */
function checkDevice(
  report: Report,
  sign: Sign,
  id: string,
  path: Path,
  { devices, deviceIds }: SymptomsKnown,
): void {
  const device = devices.get(id);
  if (!deviceIds.has(id)) {
    const message = `there is no device “${id}”`;
    report.value('device-unknown', path, message, among(id, deviceIds));
  } else if (device && device.family !== sign.family) {
    const message = `${id} is of the family ${device.family}, not ${sign.family}`;
    const ofFamily = [...devices].filter(([, { family }]) => family === sign.family);
    report.value(
      'family-differs',
      path,
      message,
      among(
        id,
        ofFamily.map(([other]) => other),
      ),
    );
  } else if (device && 'fuse' in sign && !hasFuse(device)) {
    report.value('element-undeclared', path, `${id} holds no fuse`, { found: id });
  } else if (device && 'outcome' in sign && !own(device.outcomes, sign.outcome)) {
    const message = `${id} shows no outcome “${sign.outcome}”`;
    const details = among(sign.outcome, Object.keys(device.outcomes));
    report.value('outcome-undeclared', path, message, details);
  }
}

/** Checks that some device of a sign's family shows its outcome, or holds a fuse. */
function checkFamily(
  report: Report,
  sign: Sign,
  path: Path,
  { devices, whole }: SymptomsKnown,
): void {
  const all = [...devices].map(([deviceId, device]) => ({ item: '', deviceId, device }));
  if (!whole || itemsOfSign(sign, all).length > 0) return;
  if ('fuse' in sign) {
    const message = `no device of the family ${sign.family} holds a fuse`;
    report.value('element-undeclared', [...path, 'family'], message, { found: sign.family });
    return;
  }
  const message = `no device of the family ${sign.family} shows an outcome “${sign.outcome}”`;
  const shown = all
    .filter(({ device }) => device.family === sign.family)
    .flatMap(({ device }) => Object.keys(device.outcomes));
  const details = among(sign.outcome, new Set(shown));
  report.value('outcome-undeclared', [...path, 'outcome'], message, details);
}
