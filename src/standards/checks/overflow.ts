import { elementName, landingOn, list, modeName } from '../say.ts';
import { again, outcomesThatAre, withOpen } from '../trials.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';
import { outcomeWords, SOURCES_OF_HEAT } from './outcome-words.ts';

/** An overflow switch that opens puts the heat out, in every mode. */
export const overflow: Check<'overflow interlock'> = {
  words: ({ contact, stops }) =>
    `In every working mode in which ${list(stops, 'or')} is seen at a boiler or heater, opening the ${contact} ends it.`,
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
    const findings = switches.flatMap((one): Finding[] => {
      const opened = withOpen(network, [one]);
      for (const settled of heating) {
        const left = outcomesThatAre(again(opened, settled), network, SOURCES_OF_HEAT, stops);
        if (left.length === 0) continue;
        const wired = [one.from, one.to].every((node) => landingOn(subject, node).length > 0);
        return [
          {
            at: one.item,
            path: ['items', one.item],
            message: `${outcomeWords(network, left)} with ${elementName(one)} open, in ${modeName(network, settled.mode)}${wired ? '' : '; no core reaches both its terminals'}`,
            mend: `Take the boiler’s live, or every call that lights it, through ${elementName(one)}, and remove any link across it`,
          },
        ];
      }
      return [];
    });
    return verdict(findings, `switches: ${switches.length}, modes with heat: ${heating.length}`);
  },
};
