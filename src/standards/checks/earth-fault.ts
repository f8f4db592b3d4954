import { itemName } from '../say.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';

/** An earth fault at any item opens its fuse or MCB in time. */
export const earthFault: Check<'earth fault cleared'> = {
  words: ({ share }) =>
    `The loop impedance of a fault from line to earth at every item, conductors warm, is at most ${share === 1 ? 'the greatest' : `${share} times the greatest`} that the published table gives for the fuse or MCB before it to open within 0.4 s.`,
  run({ share }, { cables, network }) {
    const faults = cables.faults.filter(({ most }) => most !== null);
    if (faults.length === 0) return apart('no table gives the greatest loop impedance here');
    const findings = faults.flatMap(({ item, loop, most, protection }): Finding[] => {
      const limit = share * most!;
      if (loop <= limit) return [];
      const name = `${protection.title}, ${protection.rating} A`;
      return [
        {
          at: item,
          path: ['items', item],
          message: `an earth fault at ${itemName(network, item)} meets ${loop.toFixed(2)} Ω, and ${name}, needs ${limit.toFixed(2)} Ω or less to open in 0.4 s`,
          found: `${loop.toFixed(2)} Ω`,
          allowed: `${limit.toFixed(2)} Ω or less`,
          mend: 'Run larger or shorter conductors, or put a smaller fuse before it',
        },
      ];
    });
    return verdict(findings, `items: ${faults.length}`);
  },
};
