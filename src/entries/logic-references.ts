import type { Device, Logic } from '../../schemas/index.ts';
import type { ProblemCode } from './catalogue.ts';
import { among } from './problem.ts';
import { own, type Report } from './report.ts';
import type { Path } from './types.ts';

/** Reports every name in a rule that its device does not declare, at the name itself. */
export function logicProblems(device: Device, rule: Logic, path: Path, report: Report): void {
  if (typeof rule === 'boolean') return;
  if (typeof rule === 'string') checkCondition(device, rule, path, report);
  else if ('energised' in rule)
    checkElement(device, rule.energised, [...path, 'energised'], report);
  else if ('held' in rule) checkElement(device, rule.held, [...path, 'held'], report);
  else if ('blown' in rule)
    checkElement(device, rule.blown, [...path, 'blown'], report, PROTECTING);
  else if ('position' in rule) checkPositions(device, rule.position, [...path, 'position'], report);
  else if ('not' in rule) logicProblems(device, rule.not, [...path, 'not'], report);
  else {
    const key = 'all' in rule ? 'all' : 'any';
    for (const [i, part] of ('all' in rule ? rule.all : rule.any).entries())
      logicProblems(device, part, [...path, key, i], report);
  }
}

function checkCondition({ conditions }: Device, name: string, path: Path, report: Report): void {
  if (Object.hasOwn(conditions, name)) return;
  const message = `this device has no condition “${name}”`;
  report.value('condition-undeclared', path, message, among(name, Object.keys(conditions)));
}

/** What a rule asks of an element, and the kinds of which it can. */
interface Asked {
  readonly kinds: readonly string[];
  /** As in `“fan” is a link; only a load, motor or sensing input is energised`. */
  readonly only: string;
  readonly code: ProblemCode;
}

/** Elements that the engine finds energised or not: they have a rated voltage. */
const FELT: Asked = {
  kinds: ['load', 'motor', 'sensing'],
  only: 'only a load, motor or sensing input is energised',
  code: 'element-not-felt',
};

const PROTECTING: Asked = {
  kinds: ['fuse', 'breaker'],
  only: 'only a fuse or a breaker blows',
  code: 'element-not-blown',
};

/** Reports an element that is not declared, or is of a kind of which nothing such is asked. */
export function checkElement(
  { elements }: Device,
  name: string,
  path: Path,
  report: Report,
  { kinds, only, code }: Asked = FELT,
): void {
  const able = Object.keys(elements).filter((other) => kinds.includes(elements[other]!.kind));
  const kind = own(elements, name)?.kind;
  if (kind === undefined) {
    const message = `this device has no element “${name}”`;
    report.value('element-undeclared', path, message, among(name, able));
  } else if (!kinds.includes(kind)) {
    report.value(code, path, `“${name}” is a ${kind}; ${only}`, among(name, able));
  }
}

function checkPositions(
  { mechanism }: Device,
  position: string | string[],
  path: Path,
  report: Report,
): void {
  const declared = mechanism?.positions ?? [];
  [position].flat().forEach((name, i) => {
    if (declared.includes(name)) return;
    const message = mechanism
      ? `“${name}” is no position of this mechanism`
      : `this device has no mechanism, so it has no position “${name}”`;
    const at = Array.isArray(position) ? [...path, i] : path;
    report.value('position-undeclared', at, message, among(name, declared));
  });
}
