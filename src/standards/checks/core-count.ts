import { count, itemName } from '../say.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';

/** Enough cores reach a device. */
export const coreCount: Check<'cable core count'> = {
  words: ({ device, least }, deviceName) =>
    `At least ${count(least, 'core')} ${least === 1 ? 'is' : 'are'} joined to the terminals of each ${deviceName(device)}.`,
  run({ device, least }, { network, conductors }) {
    const items = [...network.items.values()].filter(({ deviceId }) => deviceId === device);
    if (items.length === 0) return apart(`it has no ${device.replaceAll('-', ' ')}`);
    const findings = items.flatMap(({ reference }): Finding[] => {
      const own = conductors.filter(({ from, to }) =>
        [from, to].some((node) => network.nodes[node]!.item === reference),
      );
      if (own.length >= least) return [];
      const cables = [...new Set(own.map(({ cable }) => cable))];
      const [cable] = cables;
      return [
        {
          at: cable ?? reference,
          path: cable ? ['cables', cable, 'cores'] : ['items', reference],
          message: `${count(own.length, 'core')} ${own.length === 1 ? 'reaches' : 'reach'} ${itemName(network, reference)}`,
          found: String(own.length),
          allowed: `${least} or more`,
          mend: `Run a cable of ${least} cores to ${reference} and join them all`,
        },
      ];
    });
    return verdict(findings, `items: ${items.length}`);
  },
};
