import type { ConductorBranch, Network } from '../../circuit/index.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';

/** No conductor is thinner than allowed. */
export const conductorSize: Check<'minimum conductor size'> = {
  words: ({ smallest, earth, extraLow }) =>
    [
      `No core is smaller than ${smallest} mm².`,
      earth === undefined ? '' : `No earth core is smaller than ${earth} mm².`,
      extraLow === undefined
        ? ''
        : `In a cable of extra-low voltage alone ${extraLow} mm² is enough.`,
    ]
      .filter((sentence) => sentence !== '')
      .join(' '),
  run({ smallest, earth = smallest, extraLow = smallest }, { network, conductors }) {
    if (conductors.length === 0) return apart('no cable joins anything');
    const findings = Object.entries(network.system.cables).flatMap(([cable, data]): Finding[] => {
      const own = conductors.filter((core) => core.cable === cable);
      const protective = own.some(({ colour }) => colour === 'GNYE');
      const least = own.every((core) => isExtraLow(network, core)) ? extraLow : smallest;
      const thin = (size: number, limit: number, key: string, what: string): Finding[] =>
        size >= limit
          ? []
          : [
              {
                at: cable,
                path: ['cables', cable, key],
                message: `${what} of ${cable} ${what.endsWith('s') ? 'are' : 'is'} ${size} mm²`,
                found: `${size} mm²`,
                allowed: `${limit} mm² or larger`,
                mend: `Run ${cable} in ${limit} mm² or larger`,
              },
            ];
      return [
        ...thin(data.size, least, 'size', 'the cores'),
        ...(protective && data.earthSize !== undefined
          ? thin(data.earthSize, earth, 'earthSize', 'the earth')
          : []),
        ...(protective && data.earthSize === undefined && data.size >= least
          ? thin(data.size, earth, 'size', 'the earth')
          : []),
      ];
    });
    return verdict(findings, `cables: ${new Set(conductors.map(({ cable }) => cable)).size}`);
  },
};

/** Whether both ends of a core are made for extra-low voltage. */
export const isExtraLow = ({ nodes }: Network, { from, to }: ConductorBranch): boolean =>
  [from, to].every((node) => {
    const terminal = nodes[node]!.terminal;
    return terminal?.voltage === 'extra-low' || terminal?.carries === 'call';
  });
