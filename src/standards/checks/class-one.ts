import { resistanceBetween } from '../../circuit/index.ts';
import { itemName, pointName, whereOf } from '../say.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';

/** Every class I item is joined to the supply's earth by conductors alone. */
export const classOne: Check<'class I earthed'> = {
  words: ({ most }) =>
    `An earth terminal of every class I item is joined to the supply’s earth by conductors and links alone, through no more than ${most} Ω.`,
  run({ most }, subject) {
    const { network, simulation, supply, earthNodes } = subject;
    const items = [...network.items.values()].filter(
      ({ device }) => device.protection === 'class I' && Object.keys(device.terminals).length > 0,
    );
    if (items.length === 0) return apart('no item is of class I');
    const [settled] = simulation.modes.values();
    const findings = items.flatMap(({ reference }): Finding[] => {
      const own = network.nodes.filter(
        (n) => n.item === reference && n.terminal?.carries === 'earth',
      );
      const earthed = own.find(({ index }) => earthNodes.has(index));
      const name = itemName(network, reference);
      if (!earthed) {
        const terminal = own[0] ? pointName(own[0].id) : `an earth terminal of ${reference}`;
        return [
          {
            at: reference,
            path: ['items', reference],
            message: `${name} is class I, and nothing joins it to the supply’s earth`,
            mend: `Join ${terminal} by a green-yellow core`,
          },
        ];
      }
      const id = network.nodes[supply.earth]!.id;
      const ohms = settled ? resistanceBetween(settled.solution, earthed.id, id) : 0;
      if (ohms <= most) return [];
      const where = whereOf(subject, earthed.index);
      return [
        {
          at: where.at,
          path: where.path,
          message: `${name} is joined to the supply’s earth through ${ohms.toFixed(2)} Ω`,
          found: `${ohms.toFixed(2)} Ω`,
          allowed: `${most} Ω or less`,
          mend: 'Run a shorter or larger earth',
        },
      ];
    });
    return verdict(findings, `class I items: ${items.length}`);
  },
};
