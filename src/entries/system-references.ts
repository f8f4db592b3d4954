import { type Device, ISOLATED, type System, splitReference } from '../../schemas/index.ts';
import { cableProblems } from './cable-references.ts';
import { modeProblems } from './mode-references.ts';
import { among } from './problem.ts';
import { own, reportFor } from './report.ts';
import { checkTerminal, type SystemContext } from './system-context.ts';
import type { Places, Problem } from './types.ts';

/** What a system's checks know of the other entries. */
export interface DevicesKnown {
  /** Devices that their schema accepts, with what they extend merged in. */
  readonly devices: ReadonlyMap<string, Device>;
  /** Every device file there is, so that a faulty one is not called unknown. */
  readonly ids: ReadonlySet<string>;
}

/** Every name in a system that another entry must declare, and what its wiring must obey. */
export function systemProblems(
  system: System,
  places: Places,
  known: DevicesKnown,
): readonly Problem[] {
  const report = reportFor(places);
  const deviceOf = (item: string) => {
    const entry = own(system.items, item);
    return entry && known.devices.get(entry.device);
  };
  const context: SystemContext = { system, places, report, deviceOf };
  for (const item of Object.keys(system.items)) checkItem(context, item, known.ids);
  checkSupply(context);
  cableProblems(context);
  checkLinks(context);
  checkConnected(context);
  modeProblems(context, ISOLATED);
  return report.problems;
}

function checkItem(context: SystemContext, reference: string, ids: ReadonlySet<string>): void {
  const { system, report, deviceOf } = context;
  const { device: id, labels, ratings } = system.items[reference]!;
  const path = ['items', reference];
  if (!ids.has(id)) {
    report.value(
      'device-unknown',
      [...path, 'device'],
      `there is no device “${id}”`,
      among(id, ids),
    );
  }
  const device = deviceOf(reference);
  if (!device) return;
  const letter = reference.replace(/[0-9]+$/, '');
  if (letter !== device.letter) {
    const wanted = reference.replace(/^[A-Z]+/, device.letter);
    report.key(
      'letter-differs',
      path,
      `${reference} is a ${id}, whose letter is ${device.letter}`,
      {
        found: reference,
        allowed: `${device.letter} and a number`,
        suggestion: Object.hasOwn(system.items, wanted) ? undefined : wanted,
      },
    );
  }
  for (const name of Object.keys(labels)) {
    if (Object.hasOwn(device.terminals, name)) continue;
    const message = `${reference} (${id}) has no terminal “${name}” to label`;
    const details = among(name, Object.keys(device.terminals));
    report.key('terminal-undeclared', [...path, 'labels', name], message, details);
  }
  const rated = Object.keys(device.elements).filter((name) =>
    ['fuse', 'breaker'].includes(device.elements[name]!.kind),
  );
  for (const name of Object.keys(ratings)) {
    if (rated.includes(name)) continue;
    const message = `${reference} (${id}) has no fuse or breaker “${name}” to rate`;
    report.key('element-undeclared', [...path, 'ratings', name], message, among(name, rated));
  }
}

function checkSupply({ system, report, deviceOf }: SystemContext): void {
  const items = Object.keys(system.items);
  const supplies = items.filter((item) => deviceOf(item)?.family === 'supply');
  const [first, ...more] = supplies;
  for (const item of more) {
    const message = `${item} is a second supply; ${first} is one already`;
    report.key('supply-count', ['items', item], message, { found: item });
  }
  // While a device is unknown or faulty, it may be the supply that seems to be missing.
  if (first !== undefined || items.some((item) => deviceOf(item) === undefined)) return;
  report.key('supply-count', ['items'], 'no item of this system is a supply');
}

function checkLinks(context: SystemContext): void {
  const { system, report } = context;
  system.links.forEach(({ between }, i) => {
    const path = ['links', i, 'between'];
    const terminals = between.map((end, j) => checkTerminal(context, end, [...path, j]));
    const [[a], [b]] = between.map(splitReference) as [[string, string], [string, string]];
    const [from, to] = between;
    const known = [a, b].every((item) => Object.hasOwn(system.items, item));
    if (a !== b && known) {
      const message = `a link joins two terminals of one item; this one goes from ${a} to ${b}`;
      report.value('link-across-items', [...path, 1], message, {
        found: to,
        allowed: `${a}.terminal`,
      });
    } else if (from === to) {
      const message = `this link begins and ends at ${from}`;
      report.value('core-to-itself', [...path, 1], message, { found: to });
    } else if (
      terminals[0] &&
      terminals[1] &&
      (terminals[0].carries === 'earth') !== (terminals[1].carries === 'earth')
    ) {
      const message = `this link joins ${from} to ${to}, and only one of them carries earth`;
      report.value('earth-core-astray', path, message, { found: `${from}, ${to}` });
    }
  });
}

function checkConnected({ system, report, deviceOf }: SystemContext): void {
  const joined = new Set(
    Object.values(system.cables).flatMap(({ cores }) =>
      Object.values(cores).flatMap((core) => core?.ends ?? []),
    ),
  );
  for (const [reference, { device: id }] of Object.entries(system.items)) {
    const terminals = Object.entries(deviceOf(reference)?.terminals ?? {});
    if (terminals.length === 0) continue;
    const path = ['items', reference];
    if (!terminals.some(([name]) => joined.has(`${reference}.${name}`))) {
      const message = `no cable reaches ${reference} (${id})`;
      report.key('item-unconnected', path, message, { found: reference });
      continue;
    }
    const earths = terminals.filter(([, { carries }]) => carries === 'earth');
    if (deviceOf(reference)?.protection !== 'class I' || earths.length === 0) continue;
    if (earths.some(([name]) => joined.has(`${reference}.${name}`))) continue;
    const names = earths.map(([name]) => `${reference}.${name}`).join(', ');
    const message = `${reference} (${id}) is class I, and no core reaches its earth terminal ${names}`;
    report.key('earth-unconnected', path, message, { found: reference });
  }
}
