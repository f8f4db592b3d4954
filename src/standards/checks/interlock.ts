import { DEMANDS, splitReference } from '../../../schemas/index.ts';
import { list } from '../say.ts';
import { conditionsOfFamilies, demandsOf, outcomesThatAre, settings, under } from '../trials.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';
import { outcomeWords } from './outcome-words.ts';

const STOPPED: readonly string[] = ['boiler', 'heater', 'pump'];
const CONTROLS: readonly string[] = ['control', 'receiver', 'sensor'];

/** With no demand the boiler and the pump are off. */
export const interlock: Check<'system interlock'> = {
  words: ({ stops }) =>
    `With every demand taken away (${list(DEMANDS)}), clocks and every other condition of the controls in every position, none of ${list(stops, 'and')} is seen at a boiler, heater or pump: neither from new nor after any mode in which it was.`,
  run({ stops }, { network, working }) {
    const demands = demandsOf(network, ['boiler', 'heater', ...CONTROLS]);
    if (demands.length === 0) return apart('no item asks for heat');
    const none = Object.fromEntries(demands.map(({ id }) => [id, false]));
    const shown = (settled: Parameters<typeof outcomesThatAre>[0]) =>
      outcomesThatAre(settled, network, STOPPED, stops);
    const others = conditionsOfFamilies(network, CONTROLS).filter((id) => !(id in none));
    const ways = settings(others);
    const after = working.filter((settled) => shown(settled).length > 0);
    const starts = [undefined, ...after.map(({ state }) => state)];
    for (const memory of starts) {
      for (const way of ways) {
        const left = shown(under(network, { ...way, ...none }, memory));
        if (left.length === 0) continue;
        const on = Object.keys(way).filter((id) => way[id]);
        const [item] = splitReference(left[0]!);
        const finding: Finding = {
          at: item,
          path: ['items', item],
          message: `${outcomeWords(network, left)} with nothing asking for heat${on.length > 0 ? `, when ${list(on)}` : ''}`,
          mend: `Take the call of ${item} through the contacts that answer a demand, and through nothing beside them${on.length > 0 ? `; where ${list(on, 'or')} is a demand itself, its device says what it wants, as in wants: ${DEMANDS[0]}` : ''}`,
        };
        return verdict([finding], '');
      }
    }
    const trials = ways.length * starts.length;
    return verdict([], `demands taken away: ${demands.length}, trials: ${trials}`);
  },
};
