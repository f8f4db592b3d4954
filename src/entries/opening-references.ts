import type { Device, Opening } from '../../schemas/index.ts';
import { among } from './problem.ts';
import type { Report } from './report.ts';

/** Reports what the openings of a device name and the device does not have, or has shown already. */
export function checkOpenings(device: Device, report: Report): void {
  const shown = new Map<string, string>();
  for (const [name, opening] of Object.entries(device.openings)) {
    checkShown(device, name, opening, shown, report);
    checkHeld(device, name, opening, report);
    for (const condition of Object.keys(opening.moves)) {
      const known = Object.keys(device.conditions);
      if (known.includes(condition)) continue;
      const message = `this device has no condition “${condition}” for an opening to bring about`;
      const at = ['openings', name, 'moves', condition];
      report.key('condition-undeclared', at, message, among(condition, known));
    }
  }
}

function checkShown(
  { terminals }: Device,
  name: string,
  { shows = [] }: Opening,
  shown: Map<string, string>,
  report: Report,
): void {
  shows.forEach((terminal, i) => {
    const at = ['openings', name, 'shows', i];
    const known = Object.keys(terminals);
    const before = shown.get(terminal);
    shown.set(terminal, name);
    if (!known.includes(terminal)) {
      const message = `“${terminal}” is no terminal of this device`;
      report.value('terminal-undeclared', at, message, among(terminal, known));
    } else if (before !== undefined) {
      const message = `“${before}” shows “${terminal}” already; a terminal has one way to it`;
      report.value('terminal-shown-twice', at, message, { found: terminal });
    }
  });
}

function checkHeld({ elements }: Device, name: string, { holds }: Opening, report: Report): void {
  const fuses = Object.keys(elements).filter((element) => elements[element]!.kind === 'fuse');
  holds.forEach((fuse, i) => {
    if (fuses.includes(fuse)) return;
    const message = `“${fuse}” is no fuse of this device`;
    report.value('element-undeclared', ['openings', name, 'holds', i], message, among(fuse, fuses));
  });
}
