import {
  type Device,
  type System,
  splitReference,
  TerminalReference,
} from '../../schemas/index.ts';
import type { BodyTag, TagAttribute } from './body-tags.ts';
import type { ProblemCode } from './catalogue.ts';
import type { Kind } from './kinds.ts';
import { among, type Details, makeProblem } from './problem.ts';
import { own, type Report } from './report.ts';
import { didYouMeanSpelling } from './spelling.ts';
import { checkTerminal, type SystemContext } from './system-context.ts';
import type { Place, Places, Problem } from './types.ts';

/** Components a body may name, with their attributes: `true` where one must be given. */
const COMPONENTS: Partial<
  Record<Kind, Readonly<Record<string, Readonly<Record<string, boolean>>>>>
> = {
  system: {
    Reading: { at: true, mode: true, to: false },
    Term: { at: true },
  },
};

/** What is wrong with the components of a body, whatever the other entries say. */
export function componentProblems(kind: Kind, tags: readonly BodyTag[]): Problem[] {
  return tags.flatMap((tag) => {
    const components = COMPONENTS[kind] ?? {};
    const attributes = own(components, tag.name);
    if (!attributes) {
      const known = Object.keys(components);
      const message =
        known.length > 0
          ? `there is no <${tag.name}> to stand in a body`
          : `a body of this kind has no component; <${tag.name}> is one`;
      const details = among(tag.name, known);
      return [makeProblem('component-unknown', tag.place, [], message, details)];
    }
    return [
      ...missing(tag, attributes),
      ...tag.attributes.flatMap((a, i) => wrong(tag, attributes, a, i)),
    ];
  });
}

function missing(tag: BodyTag, attributes: Readonly<Record<string, boolean>>): Problem[] {
  const lacking = lackingIn(tag, attributes);
  const strange = tag.attributes.filter(({ name }) => isStrange(name, attributes));
  // One in the place of another is one fault, not an unknown one and a missing one.
  if (strange.length >= lacking.length) return [];
  return lacking.flatMap((name) => {
    if (strange.some((other) => among(other.name!, [name]).suggestion === name)) return [];
    const message = `<${tag.name}> has no “${name}”`;
    return [makeProblem('attribute-missing', tag.place, [], message, { allowed: `${name}="…"` })];
  });
}

const isStrange = (name: string | undefined, attributes: Readonly<Record<string, boolean>>) =>
  name !== undefined && own(attributes, name) === undefined;

/** Attributes that a tag must be given and is not. */
function lackingIn(tag: BodyTag, attributes: Readonly<Record<string, boolean>>): string[] {
  const given = tag.attributes.map(({ name }) => name);
  return Object.keys(attributes).filter((name) => attributes[name] && !given.includes(name));
}

function wrong(
  tag: BodyTag,
  attributes: Readonly<Record<string, boolean>>,
  { name, value, place }: TagAttribute,
  index: number,
): Problem[] {
  const say = (code: ProblemCode, message: string, details: Details = {}) => [
    makeProblem(code, place, [], message, details),
  ];
  if (name !== undefined && isStrange(name, attributes)) {
    const message = `<${tag.name}> takes no “${name}”`;
    const details = among(name, Object.keys(attributes));
    const [only, ...others] = lackingIn(tag, attributes);
    const suggestion = details.suggestion ?? (others.length === 0 ? only : undefined);
    return say('attribute-unknown', message, { ...details, suggestion });
  }
  if (name === undefined || value === undefined) {
    const message = `what <${tag.name}> is given stands in quotation marks, not as a program`;
    return say('attribute-form', message, { allowed: `${name ?? 'at'}="…"` });
  }
  if (tag.attributes.findIndex((other) => other.name === name) === index) return [];
  return say('attribute-form', `<${tag.name}> is given “${name}” twice`, { found: name });
}

/** Every terminal and mode that a system's body names and the system does not have. */
export function bodyReferenceProblems(
  tags: readonly BodyTag[],
  system: System,
  places: Places,
  deviceOf: SystemContext['deviceOf'],
): Problem[] {
  return tags.flatMap((tag) => {
    const given = (name: string) => tag.attributes.find((a) => a.name === name && a.value);
    const [at, to, mode] = [given('at'), given('to'), given('mode')];
    const found = [at, to].flatMap((end) => {
      if (!end) return [];
      const report = reportAt(end.valuePlace);
      checkPoint({ system, places, report, deviceOf }, end.value!);
      return report.problems;
    });
    if (mode && !Object.hasOwn(system.modes, mode.value!)) {
      const message = `this system has no mode “${mode.value}”`;
      const details = among(mode.value!, Object.keys(system.modes));
      found.push(makeProblem('mode-unknown', mode.valuePlace, [], message, details));
    }
    if (found.length > 0 || tag.name !== 'Reading' || !at) return found;
    const against = to ? to.value !== at.value : readsAlone(system, deviceOf, at.value!);
    if (against) return found;
    const message = to
      ? `a reading is taken between two points; both are ${at.value}`
      : `${at.value} has nothing of its own to be read against; say to="ITEM.terminal"`;
    return [makeProblem('reading-against-nothing', (to ?? at).valuePlace, [], message)];
  });
}

/** A report whose every problem stands at one place of the body, outside any path. */
function reportAt(place: Place): Report {
  const problems: Problem[] = [];
  const add: Report['value'] = (code, _path, message, details) =>
    void problems.push(makeProblem(code, place, [], message, details));
  return { problems, value: add, key: add };
}

function checkPoint(context: SystemContext, reference: string): void {
  const parsed = TerminalReference.safeParse(reference);
  if (parsed.success) {
    checkTerminal(context, reference, []);
    return;
  }
  const [issue] = parsed.error.issues;
  context.report.value('value-form', [], issue!.message, {
    found: reference,
    suggestion: didYouMeanSpelling(reference, issue!),
  });
}

/**
 * Whether a joined terminal has a joined mate at its item to be read against when no `to` is
 * given: a line its neutral or earth, a neutral its earth, one side of a call the other.
 */
function readsAlone(
  system: System,
  deviceOf: (item: string) => Device | undefined,
  point: string,
): boolean {
  const [item, name] = splitReference(point);
  const terminals = deviceOf(item)?.terminals;
  const terminal = terminals?.[name];
  if (!terminals || !terminal) return true;
  const joined = new Set(
    [
      ...Object.values(system.cables).flatMap(({ cores }) => Object.values(cores)),
      ...system.links.map(({ between }) => ({ ends: between })),
    ].flatMap((joint) => joint?.ends ?? []),
  );
  const isCall = (t: Device['terminals'][string]) =>
    t.carries === 'call' || t.voltage === 'extra-low';
  const mates = Object.entries(terminals)
    .filter(([other]) => other !== name && joined.has(`${item}.${other}`))
    .map(([, mate]) => (isCall(mate) ? 'call' : mate.carries));
  if (!joined.has(point)) return false;
  if (isCall(terminal)) return mates.includes('call');
  if (terminal.carries === 'earth') return false;
  return mates.includes('earth') || (terminal.carries !== 'neutral' && mates.includes('neutral'));
}
