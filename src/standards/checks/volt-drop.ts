import { NOMINAL_VOLTS } from '../../published/index.ts';
import { itemName, modeName } from '../say.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';

/** The cables between the origin and every item lose no more than a share of the voltage. */
export const voltDrop: Check<'volt drop'> = {
  words: ({ most }) =>
    `The line and neutral of every item, from the origin of the supply, lose no more than ${most} % of ${NOMINAL_VOLTS} V in any mode, by the published millivolts per ampere and metre.`,
  run({ most }, { cables, network }) {
    const { drops } = cables;
    if (drops.length === 0) return apart('no item has a line and a neutral');
    const limit = (most / 100) * NOMINAL_VOLTS;
    const findings = drops.flatMap(({ item, volts, worstMode }): Finding[] => {
      if (volts <= limit) return [];
      return [
        {
          at: item,
          path: ['items', item],
          message: `the cables to ${itemName(network, item)} lose ${volts.toFixed(1)} V in ${modeName(network, worstMode ?? '')}`,
          found: `${volts.toFixed(1)} V`,
          allowed: `${limit.toFixed(1)} V or less`,
          mend: 'Run larger or shorter cables to it',
        },
      ];
    });
    return verdict(findings, `items: ${drops.length}`);
  },
};
