import { colourName, coreName, corePath, list, modeName } from '../say.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';
import { isLive } from '../volts.ts';

/** A blue core that is live in some mode is marked as a line conductor. */
export const blueSleeved: Check<'blue core as a live sleeved'> = {
  words: ({ core, sleeves }) =>
    `Every ${colourName(core)} core that is live to earth in some mode is sleeved ${list(sleeves.map(colourName), 'or')} at its ends.`,
  run({ core: colour, sleeves }, subject) {
    const { network, simulation } = subject;
    const live = subject.conductors.flatMap((core) => {
      if (core.colour !== colour) return [];
      const mode = [...simulation.modes.values()].find((settled) =>
        [core.from, core.to].some((node) => isLive(subject, settled, node)),
      );
      return mode ? [{ core, mode: mode.mode }] : [];
    });
    if (live.length === 0) return apart(`no ${colourName(colour)} core is live in any mode`);
    const findings = live.flatMap(({ core, mode }): Finding[] => {
      if (core.sleeve && sleeves.includes(core.sleeve)) return [];
      const marked = core.sleeve ? `sleeved ${colourName(core.sleeve)}` : 'not sleeved';
      return [
        {
          at: core.id,
          path: corePath(core),
          message: `${coreName(core)} is live in ${modeName(network, mode)} and ${marked}`,
          found: core.sleeve ?? 'no sleeve',
          allowed: list(sleeves, 'or'),
          mend: `Sleeve ${coreName(core)} ${list(sleeves.map(colourName), 'or')} at both ends`,
        },
      ];
    });
    return verdict(findings, `live ${colourName(colour)} cores: ${live.length}`);
  },
};
