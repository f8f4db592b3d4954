import { type Device, type Mode, splitReference } from '../../schemas/index.ts';
import { nearest } from './nearest.ts';
import { among } from './problem.ts';
import { own } from './report.ts';
import type { SystemContext } from './system-context.ts';
import type { Path } from './types.ts';

/** Checks a system's modes: the ones it must have, what each comes after, what each names. */
export function modeProblems(context: SystemContext, isolated: string): void {
  const { modes } = context.system;
  const names = Object.keys(modes);
  const details = {
    found: names.join(', ') || 'none',
    allowed: `${isolated} and at least one more`,
  };
  if (!names.includes(isolated)) {
    const message = `this system has no mode “${isolated}”, its isolator off`;
    const near = nearest(isolated, names);
    context.report.key('mode-missing', near === undefined ? ['modes'] : ['modes', near], message, {
      ...details,
      suggestion: near && isolated,
    });
  }
  if (names.every((name) => name === isolated)) {
    const message = `this system has no mode beside “${isolated}”; it needs one in which it works`;
    context.report.key('mode-missing', ['modes'], message, details);
  }
  for (const [name, mode] of Object.entries(modes)) {
    checkAfter(context, name, mode);
    for (const key of Object.keys(mode.conditions))
      checkMember(context, 'condition', key, ['modes', name, 'conditions', key]);
    for (const key of Object.keys(mode.expect))
      checkMember(context, 'outcome', key, ['modes', name, 'expect', key]);
  }
  checkCycles(context);
}

function checkAfter({ system, report }: SystemContext, name: string, { after }: Mode): void {
  if (after === undefined || Object.hasOwn(system.modes, after)) return;
  const others = Object.keys(system.modes).filter((other) => other !== name);
  const message = `this system has no mode “${after}” to come after`;
  report.value('mode-unknown', ['modes', name, 'after'], message, among(after, others));
}

function checkCycles({ system, report }: SystemContext): void {
  const seen = new Set<string>();
  for (const name of Object.keys(system.modes)) {
    const trail: string[] = [];
    let at: string | undefined = name;
    while (at !== undefined && !seen.has(at) && !trail.includes(at)) {
      trail.push(at);
      at = own(system.modes, at)?.after;
    }
    if (at !== undefined && trail.includes(at)) {
      const cycle = trail.slice(trail.indexOf(at));
      const message =
        cycle.length === 1
          ? `mode “${at}” comes after itself`
          : `these modes come after one another in a circle: ${[...cycle, at].join(' → ')}`;
      report.value('mode-cycle', ['modes', at, 'after'], message, {
        found: system.modes[at]!.after,
      });
    }
    for (const visited of trail) seen.add(visited);
  }
}

const DECLARED: Readonly<Record<'condition' | 'outcome', (device: Device) => object>> = {
  condition: (device) => device.conditions,
  outcome: (device) => device.outcomes,
};

function checkMember(
  { system, report, deviceOf }: SystemContext,
  what: 'condition' | 'outcome',
  reference: string,
  path: Path,
): void {
  const [item, name] = splitReference(reference);
  if (!Object.hasOwn(system.items, item)) {
    const details = among(item, Object.keys(system.items));
    report.key('item-unknown', path, `this system has no item ${item}`, {
      ...details,
      found: reference,
    });
    return;
  }
  const device = deviceOf(item);
  if (!device) return;
  const declared = Object.keys(DECLARED[what](device));
  if (declared.includes(name)) return;
  const message = `${item} (${system.items[item]!.device}) has no ${what} “${name}”`;
  const details = among(name, declared, (other) => `${item}.${other}`);
  report.key(`${what}-undeclared`, path, message, details);
}
