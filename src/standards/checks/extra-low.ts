import { modeName, pointName, whereOf } from '../say.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';
import { voltsToEarth } from '../volts.ts';

/** Terminals made for extra-low voltage never stand at more than the limit. */
export const noMains: Check<'no mains on extra-low voltage'> = {
  words: ({ most }) =>
    `Every terminal made for extra-low voltage, or for a call, shows no more than ${most} V AC to earth on a two-pole tester, in every mode.`,
  run({ most }, subject) {
    const { network, simulation } = subject;
    const nodes = network.nodes.filter(
      ({ terminal }) => terminal?.voltage === 'extra-low' || terminal?.carries === 'call',
    );
    if (nodes.length === 0) return apart('no terminal is made for extra-low voltage');
    const findings = nodes.flatMap(({ index, id }): Finding[] => {
      const mode = [...simulation.modes.values()].find(
        (settled) => voltsToEarth(subject, settled, index, most) > most,
      );
      if (!mode) return [];
      const volts = voltsToEarth(subject, mode, index, most).toFixed(0);
      return [
        {
          ...whereOf(subject, index),
          message: `${pointName(id)} is made for extra-low voltage and stands at ${volts} V in ${modeName(network, mode.mode)}`,
          found: `${volts} V AC`,
          allowed: `${most} V AC or less`,
          mend: `Take mains away from ${pointName(id)}: only a volt-free contact goes there`,
        },
      ];
    });
    return verdict(findings, `terminals: ${nodes.length}, modes: ${simulation.modes.size}`);
  },
};
