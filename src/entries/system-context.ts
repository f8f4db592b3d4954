import { type Device, type System, splitReference } from '../../schemas/index.ts';
import { among } from './problem.ts';
import { own, type Report } from './report.ts';
import type { Path, Places } from './types.ts';

/** A system under check: each item with its device, where that is known. */
export interface SystemContext {
  readonly system: System;
  readonly places: Places;
  readonly report: Report;
  readonly deviceOf: (item: string) => Device | undefined;
}

/**
 * Reports a terminal reference whose item or terminal is not there.
 * @returns the terminal, or undefined if it is not known.
 */
export function checkTerminal(
  { system, report, deviceOf }: SystemContext,
  reference: string,
  path: Path,
): Device['terminals'][string] | undefined {
  const [item, name] = splitReference(reference);
  if (!Object.hasOwn(system.items, item)) {
    const items = Object.keys(system.items);
    report.value('item-unknown', path, `this system has no item ${item}`, {
      ...among(item, items, (other) => other),
      found: reference,
    });
    return undefined;
  }
  const device = deviceOf(item);
  if (!device) return undefined;
  const terminal = own(device.terminals, name);
  if (!terminal) {
    const message = `${item} (${system.items[item]!.device}) has no terminal “${name}”`;
    const details = among(name, Object.keys(device.terminals), (other) => `${item}.${other}`);
    report.value('terminal-undeclared', path, message, details);
  }
  return terminal;
}
