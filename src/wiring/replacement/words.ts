import { splitReference } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { COLOUR_CODES } from '../../published/index.ts';
import { capital, READING_WORDS, terminalWords } from '../../words/index.ts';
import { itemOf, nameOf } from '../points.ts';
import { itemWords, outcomeText, pointMark as spoken } from '../spoken.ts';
import { onExtraLow } from './match.ts';
import { EARTH, isFeed, partsOf, terminalsFor } from './parts.ts';
import type { Plan } from './plan.ts';
import type { CoreStep, LinkStep } from './steps.ts';
import type { LinkProof, NewCondition, Replacement } from './study.ts';

const NUMBERS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
const number = (n: number): string => NUMBERS[n] ?? String(n);
const list = (parts: readonly string[]): string =>
  parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;

/** Verdicts in a few words. */
export const VERDICT_WORDS = {
  equal: 'Same result',
  'equal with cores': 'Same result, more cores needed',
  different: 'Different result',
  never: 'Do not fit',
} as const;

/** What the replacement comes to, in a sentence. */
export function verdictText(r: Replacement): string {
  const { verdict, comparison, plan } = r;
  if (plan.newId === plan.oldId)
    return 'Like for like: wired as before it is the same circuit, with the same readings. The new one’s terminals may stand in another order and bear other marks.';
  const tried = `${capital(number(comparison.modes.length))} modes and ${comparison.combinations} combinations of conditions`;
  switch (verdict) {
    case 'equal':
      return `${tried} were simulated with the old device and with the new one: everything else in the system does the same.`;
    case 'equal with cores':
      return `${coresText(plan)} With them there, ${lower(tried)} were simulated: everything else in the system does the same.`;
    case 'different':
      return `${differenceText(r) ?? 'The system does not do the same.'} ${plan.newCable ? coresText(plan) : ''}`.trim();
    case 'never':
      return `${r.hazards[0]?.title ?? 'It makes a danger'}. ${r.hazards[0]?.advice ?? ''}`.trim();
  }
}

/** A mode as its entry titles it, in quotation marks. */
const modeName = ({ system }: Network, mode: string): string => `“${system.modes[mode]!.title}”`;

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** Links to be added and taken out, as in `Two links to add, one to take out.`; empty where none is. */
export function linksText({ links }: Plan): string {
  const [add, out] = (['add', 'take out'] as const).map(
    (act) => links.filter((link) => link.act === act).length,
  ) as [number, number];
  const of = (count: number) => `${number(count)} ${count === 1 ? 'link' : 'links'}`;
  if (add === 0) return out === 0 ? '' : `${capital(of(out))} to take out.`;
  return `${capital(of(add))} to add${out === 0 ? '' : `, ${number(out)} to take out`}.`;
}

/** Cores needed beside the protective conductor, and those there. */
export function coresText({ cores, newCable, device }: Plan): string {
  if (!newCable) return '';
  const live = cores.filter(({ colour, now }) => colour !== 'GNYE' && now !== null);
  const there = live.filter(({ was, core }) => was !== null || core === 'spare').length;
  const own = device.terminals;
  const forSupply = live.some(
    ({ now, was }) => was === null && now !== null && own[nameOf(now)]?.carries === 'neutral',
  );
  const why = forSupply ? 'The new device has a supply of its own: ' : '';
  const needed = `${number(live.length)} ${live.length === 1 ? 'core' : 'cores'} needed here, ${number(there)} there`;
  return `${why ? why + needed : capital(needed)}.`;
}

/** The cable to run, in a sentence. */
export function newCableText({ newCable, item }: Plan): string {
  if (!newCable) return '';
  const { cores, spare, cable, inPlaceOf, from, size, length } = newCable;
  const count = number(cores.length + spare.length);
  const kind = `a ${count}-core flex of ${size} mm² (${[...cores, ...spare].map((colour) => COLOUR_CODES[colour]).join(', ')})`;
  const where = `from ${from} to ${item}, about ${length} m`;
  return inPlaceOf
    ? `Run ${kind} ${where}, in place of ${cable}. The old cable is disconnected at both ends, and taken out or labelled as disconnected.`
    : `Run ${kind} ${where}, as ${cable}. It is kept apart from the extra-low-voltage cores, in a cable and an entry of its own.`;
}

/** The gravest difference in a sentence; null where there is none. */
export function differenceText(r: Replacement): string | null {
  const { comparison, before, plan } = r;
  const [first] = comparison.differences;
  if (!first) {
    return plan.unserved.length > 0 ? `Nothing here can serve ${list(plan.unserved)}.` : null;
  }
  const lost = plan.homeless.map((name) => `${terminalWords(name)} at ${plan.item}`);
  const because = lost.length > 0 ? `The new device has no place for ${list(lost)}. ` : '';
  const [was, now] = [first.was, first.now].map((seen) => outcomeText(before, first.outcome, seen));
  const where =
    first.mode === null
      ? conditionsText(before, first.conditions)
      : `In ${modeName(before, first.mode)}`;
  const text = `${because}${where}: ${lower(now!)} (${itemOf(first.outcome)}); before, ${lower(was!)}.`;
  return text;
}

/** Conditions that are not as usual: `With room asks for heat at B1`. */
export function conditionsText(
  { items }: Network,
  conditions: Readonly<Record<string, boolean>>,
): string {
  const said = Object.entries(conditions).map(([id, value]) => {
    const [item, name] = splitReference(id);
    const { title } = items.get(item)!.device.conditions[name]!;
    return `${value ? '' : 'not '}“${title}” at ${item}`;
  });
  return said.length === 0 ? 'With everything as usual' : `With ${list(said)}`;
}

/** A core and what is done with it. */
export function coreAct({ was, now, core, colour, cable, far }: CoreStep): string {
  if (now === null && colour === 'GNYE')
    return `in an earth terminal of its own; it stays connected in ${spoken(far)}`;
  if (now === null)
    return `out of ${spoken(was!)} and out of ${spoken(far)}; into a terminal of its own at both ends, labelled`;
  if (core === 'new') return was === null ? 'new core' : 'new core, in place of the old one';
  if (core === 'spare')
    return `spare core of ${cable}, brought into use; its other end goes to ${spoken(far)}`;
  return was === now ? 'to the terminal of the same name' : 'to another terminal';
}

/** A core's colour in full: `BN brown`. */
export const coreName = ({ colour }: Pick<CoreStep, 'colour'>): string =>
  `${colour} ${COLOUR_CODES[colour]}`;

/** What is done with a link. */
export function linkText({ between: [a, b], act }: LinkStep): string {
  switch (act) {
    case 'stays':
      return `The link it is delivered with, ${terminalWords(a)} to ${terminalWords(b)}, stays.`;
    case 'take out':
      return `The link it is delivered with, ${terminalWords(a)} to ${terminalWords(b)}, comes out.`;
    case 'add':
      return `A link goes in, ${terminalWords(a)} to ${terminalWords(b)}.`;
    case 'not put back':
      return `The old link, ${terminalWords(a)} to ${terminalWords(b)}, is not put back.`;
  }
}

/** What happens when a link's step is forgotten. */
export function linkProofText(
  { hazards, differences, link }: LinkProof,
  { before, changed: { network } }: Replacement,
): string {
  const forgotten = link.act === 'take out' ? 'Left in' : 'Left out';
  if (hazards[0]) return `${forgotten}: ${lower(hazards[0].title).replace(': ', ', ')}.`;
  const [first] = differences;
  if (!first) {
    return link.act === 'take out'
      ? 'Left in: no mode shows it, since a second way stands beside the first. Only a dead test finds it, with the supply’s cores off: no continuity between the two terminals.'
      : 'Left out: no mode shows it. Only a dead test proves it.';
  }
  const where = first.mode
    ? ` in ${modeName(network, first.mode)}`
    : `, ${lower(conditionsText(before, first.conditions))}`;
  return `${forgotten}: ${lower(outcomeText(network, first.outcome, first.now))} (${itemOf(first.outcome)})${where}.`;
}

/** What a condition only the new device has does to the rest. */
export function newConditionText(found: NewCondition, network: Network): string {
  if (found.mode === null) return `${found.title}: nothing else changes.`;
  const effects = found.effects.map(
    ({ outcome, now }) => `${lower(outcomeText(network, outcome, now))} (${itemOf(outcome)})`,
  );
  return `${found.title}, in ${modeName(network, found.mode)}: ${list(effects)}.`;
}

/** What else there is to know: traps that no single core shows. */
export function notesOf(r: Replacement): string[] {
  const { plan, before, unsupplied, emptyLive, ownLive, series, readings, changed } = r;
  const { network } = changed;
  const modes = (ids: readonly string[]) => list(ids.map((id) => modeName(network, id)));
  const extraLow = Object.keys(plan.old.terminals).some((name) =>
    onExtraLow(before, `${plan.item}.${name}`),
  );
  const forMains = plan.cores.some(
    ({ now, far }) =>
      now !== null &&
      itemOf(now) === plan.item &&
      ['line', 'switched'].includes(plan.device.terminals[nameOf(now)]!.carries) &&
      network.nodes[network.nodeIndex.get(far) ?? -1]?.terminal?.carries === 'call',
  );
  const otherPlace = [plan.old.family, plan.device.family].toSorted().join() === 'control,receiver';
  return [
    ...(unsupplied.length > 0
      ? [
          `Its supply is not permanent: the new device has no supply in ${modes(unsupplied)}. Leave what feeds it on, or bring it a permanent live in a core of its own.`,
        ]
      : []),
    ...(ownLive
      ? [
          'The call no longer carries the live that came for it but the new device’s own. Both must stand behind the same isolator and fuse, and the manufacturer of what is called must allow it.',
        ]
      : []),
    ...readings
      .slice(0, 4)
      .map(
        ({ point, was, now, modes: ids }) =>
          `${capital(spoken(point))}: ${READING_WORDS[now]} in ${modes(ids)}; before, ${READING_WORDS[was]}.`,
      ),
    ...(series.length > 0
      ? [
          `${capital(list(series.map((item) => `the ${itemWords(network, item)}`)))} ${series.length === 1 ? 'stays' : 'stay'} in series with the new device: both must call before anything happens.`,
        ]
      : []),
    ...emptyLive.map(
      ({ terminal, modes: ids }) =>
        `${capital(terminalWords(terminal))} at ${plan.item} stays empty and is live in ${modes(ids)}.`,
    ),
    ...(extraLow && forMains
      ? [
          'A contact made for mains may not pass a signal of a few milliamperes. The new device’s instructions must allow an extra-low-voltage call (common practice, no source).',
        ]
      : []),
    ...(otherPlace
      ? [
          plan.device.family === 'receiver'
            ? 'A receiver need not hang where the control hung: near the boiler or wiring centre, in a short cable, it needs no cores through the house. The wireless room stat goes where the room is measured. The cable left behind is disconnected at both ends.'
            : 'A control measures the air where it hangs. The place of a receiver, beside a boiler, is seldom one; the cable to a room is then part of the work.',
        ]
      : []),
    ...[...changed.gone].map(
      ([mode, condition]) =>
        `${modeName(before, mode)} cannot be brought about any more: the new device has no “${before.items.get(plan.item)!.device.conditions[splitReference(condition)[1]]!.title}”.`,
    ),
  ];
}

/** Dead tests before the cover goes back, isolated and proved dead, with what each must show. */
export function deadTestsOf({ plan, before }: Replacement): string[] {
  const { item, device, links, cores } = plan;
  const joined = links.filter(({ act }) => act === 'add' || act === 'stays');
  const isJoined = (a: string, b: string) =>
    joined.some(({ between }) => between.includes(a) && between.includes(b));
  const taken = new Set(cores.flatMap(({ now }) => (now === null ? [] : [nameOf(now)])));
  const calls = [...taken].filter((name) =>
    cores.some(
      ({ now, was }) => now === `${item}.${name}` && was !== null && onExtraLow(before, was),
    ),
  );
  const [supply] = terminalsFor(device, 'supply line');
  const apart = Object.keys(device.terminals).filter(
    (name) =>
      supply !== undefined &&
      name !== supply &&
      partsOf(device, name).some(isFeed) &&
      taken.has(name) &&
      !isJoined(name, supply),
  );
  const earths = terminalsFor(device, EARTH).filter((name) => taken.has(name));
  return [
    ...earths.map(
      (name) =>
        `${capital(terminalWords(name))} at ${item} to the earth of the isolator: continuity.`,
    ),
    ...joined.map(
      ({ between: [a, b] }) =>
        `${capital(terminalWords(a))} to ${terminalWords(b)}: continuity, the link is in.`,
    ),
    ...apart.map(
      (name) =>
        `${capital(terminalWords(supply!))} to ${terminalWords(name)}, with their cores not yet in: open circuit. Continuity here is a link left in, or one inside.`,
    ),
    ...(calls.length > 0
      ? [
          `${capital(list(calls.map(terminalWords)))}, each to line, neutral and earth: open circuit.`,
        ]
      : []),
    'Line to neutral and line to earth at the isolator’s load side: no short.',
  ];
}
