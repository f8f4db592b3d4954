import type { ElementBranch, Memory, Settled } from '../../circuit/index.ts';
import { elementName, landingOn, list, modeName, whenSo } from '../say.ts';
import type { Subject } from '../subject.ts';
import {
  ACTING,
  again,
  conditionsOfFamilies,
  hazardWays,
  outcomesThatAre,
  settings,
  under,
  withOpen,
} from '../trials.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';
import { outcomeWords, SOURCES_OF_HEAT } from './outcome-words.ts';

/** An overflow switch that opens puts the heat out, whatever asks for it. */
export const overflow: Check<'overflow interlock'> = {
  words: ({ contact, stops }) =>
    `In every working mode in which ${list(stops, 'or')} is seen at a boiler or heater, opening the ${contact} ends it; and with it open nothing brings it about, whatever asks for heat, from new or after any such mode.`,
  run({ contact, stops }, subject) {
    const { network } = subject;
    const switches = subject.elements.filter(
      ({ name, element }) => name === contact && element.kind === 'contact',
    );
    if (switches.length === 0) return apart(`no item has the contact ${contact}`);
    const heating = subject.working.filter(
      (settled) => outcomesThatAre(settled, network, SOURCES_OF_HEAT, stops).length > 0,
    );
    if (heating.length === 0) return apart('no mode lights the heat source');
    const ways = hazardWays(network, ACTING);
    const after = settings(conditionsOfFamilies(network, ACTING));
    const findings = switches.flatMap((one): Finding[] => {
      const lit =
        inAMode(subject, one, heating, stops) ??
        byAnyWay(subject, one, heating, stops, { ways, after });
      if (!lit) return [];
      const wired = [one.from, one.to].every((node) => landingOn(subject, node).length > 0);
      return [
        {
          at: one.item,
          path: ['items', one.item],
          message: `${outcomeWords(network, lit.seen)} with ${elementName(one)} open, ${lit.when}${wired ? '' : '; no core reaches both its terminals'}`,
          mend: `Take the boiler’s live, and every call and every other live that lights it, through ${elementName(one)}, and remove any link across it`,
        },
      ];
    });
    const trials = heating.length * (1 + after.length) + ways.length;
    return verdict(
      findings,
      `switches: ${switches.length}, modes with heat: ${heating.length}, trials: ${trials}`,
    );
  },
};

interface Lit {
  readonly seen: readonly string[];
  /** `in heating call`, `when B1.calling`. */
  readonly when: string;
}

/** What is still lit once the switch has opened in a mode that had lit it. */
function inAMode(
  { network }: Subject,
  one: ElementBranch,
  heating: readonly Settled[],
  stops: readonly string[],
): Lit | undefined {
  const opened = withOpen(network, [one]);
  for (const settled of heating) {
    const seen = outcomesThatAre(again(opened, settled), network, SOURCES_OF_HEAT, stops);
    if (seen.length > 0) return { seen, when: `in ${modeName(network, settled.mode)}` };
  }
  return undefined;
}

/** What any way of setting the conditions lights with the switch open, from new or after a mode. */
function byAnyWay(
  { network }: Subject,
  one: ElementBranch,
  heating: readonly Settled[],
  stops: readonly string[],
  { ways, after }: Readonly<Record<'ways' | 'after', readonly Readonly<Record<string, boolean>>[]>>,
): Lit | undefined {
  const opened = withOpen(network, [one]);
  const starts: (Memory | undefined)[] = [undefined, ...heating.map(({ state }) => state)];
  for (const memory of starts)
    for (const way of memory ? after : ways) {
      const seen = outcomesThatAre(under(opened, way, memory), network, SOURCES_OF_HEAT, stops);
      if (seen.length === 0) continue;
      return { seen, when: whenSo(way) };
    }
  return undefined;
}
