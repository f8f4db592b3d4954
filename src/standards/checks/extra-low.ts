import type { Settled } from '../../circuit/index.ts';
import { modeName, pointName, whenSo, whereOf } from '../say.ts';
import { ACTING, hazardWays, under } from '../trials.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';
import { voltsToEarth } from '../volts.ts';

/** Terminals made for extra-low voltage never stand at more than the limit. */
export const noMains: Check<'no mains on extra-low voltage'> = {
  words: ({ most }) =>
    `Every terminal made for extra-low voltage, or for a call, shows no more than ${most} V AC to earth on a two-pole tester, in every mode and whatever asks for heat.`,
  run({ most }, subject) {
    const { network, simulation } = subject;
    const nodes = network.nodes.filter(
      ({ terminal }) => terminal?.voltage === 'extra-low' || terminal?.carries === 'call',
    );
    if (nodes.length === 0) return apart('no terminal is made for extra-low voltage');
    const modes = [...simulation.modes.values()];
    const ways = hazardWays(network, ACTING);
    let settled: readonly Settled[] | undefined;
    const trials = () => {
      settled ??= ways.map((way) => under(network, way));
      return settled;
    };
    const findings = nodes.flatMap(({ index, id }): Finding[] => {
      const over = (rest: Settled) => voltsToEarth(subject, rest, index, most) > most;
      const mode = modes.find(over);
      const at = mode ? -1 : trials().findIndex(over);
      const found = mode ?? trials()[at];
      if (!found) return [];
      const volts = voltsToEarth(subject, found, index, most).toFixed(0);
      const when = mode ? `in ${modeName(network, mode.mode)}` : whenSo(ways[at]!);
      return [
        {
          ...whereOf(subject, index),
          message: `${pointName(id)} is made for extra-low voltage and stands at ${volts} V ${when}`,
          found: `${volts} V AC`,
          allowed: `${most} V AC or less`,
          mend: `Take mains away from ${pointName(id)}: only a volt-free contact goes there`,
        },
      ];
    });
    return verdict(
      findings,
      `terminals: ${nodes.length}, modes: ${simulation.modes.size}, trials: ${ways.length}`,
    );
  },
};
