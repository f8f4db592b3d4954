import { coreName, corePath } from '../say.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';
import { isExtraLow } from './conductor-size.ts';

/** No cable holds mains and extra-low voltage together. */
export const extraLowApart: Check<'extra-low voltage apart'> = {
  words: () =>
    'A cable that holds a core of an extra-low-voltage call or bus holds no core of the mains beside it; an earth counts as neither.',
  run(_, { network, conductors }) {
    const cores = conductors.filter((core) => isExtraLow(network, core));
    if (cores.length === 0) return apart('no core carries extra-low voltage');
    const findings = cores.flatMap((core): Finding[] => {
      const mains = conductors.find(
        (other) =>
          other.cable === core.cable && other.colour !== 'GNYE' && !isExtraLow(network, other),
      );
      if (!mains) return [];
      return [
        {
          at: core.id,
          path: corePath(core),
          message: `${coreName(core)} carries extra-low voltage beside ${coreName(mains)}, which is mains`,
          mend: 'Run the call in a cable of its own',
        },
      ];
    });
    return verdict(findings, `extra-low-voltage cores: ${cores.length}`);
  },
};
