import type { ConductorBranch } from '../../circuit/index.ts';
import { EXTRA_LOW_LIMITS } from '../../published/index.ts';
import { colourName, coreName, corePath, pointName } from '../say.ts';
import type { Subject } from '../subject.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';
import { voltsToEarth } from '../volts.ts';

const PROTECTIVE = 'GNYE';

/** Green-yellow is a protective conductor, and a protective conductor is green-yellow. */
export const greenYellow: Check<'green-yellow only as protective conductor'> = {
  words: () =>
    'Every green-yellow core joins earth terminals only, carries no other marking and is at no dangerous voltage in any mode; and every core between two earth terminals is green-yellow.',
  run(_, subject) {
    const marked = (c: ConductorBranch) => c.colour === PROTECTIVE || c.sleeve === PROTECTIVE;
    const protective = (c: ConductorBranch) => [c.from, c.to].every((n) => isEarth(subject, n));
    const about = subject.conductors.filter((core) => marked(core) || protective(core));
    if (about.length === 0) return apart('no earth core and no green-yellow core');
    const findings = about.flatMap((core): Finding[] => {
      const said = complaint(subject, core);
      return said ? [{ at: core.id, path: corePath(core), ...said }] : [];
    });
    return verdict(findings, `cores: ${about.length}, modes: ${subject.simulation.modes.size}`);
  },
};

const isEarth = ({ network }: Subject, node: number) =>
  network.nodes[node]!.terminal?.carries === 'earth';

function complaint(
  subject: Subject,
  core: ConductorBranch,
): Pick<Finding, 'message' | 'mend' | 'found' | 'allowed'> | null {
  const { network, simulation } = subject;
  const name = coreName(core);
  const astray = [core.from, core.to].find((node) => !isEarth(subject, node));
  if (core.colour !== PROTECTIVE && core.sleeve !== PROTECTIVE) {
    return {
      message: `${name} is an earth and not green-yellow`,
      found: core.colour,
      allowed: PROTECTIVE,
      mend: `Use the green-yellow core of ${core.cable}, or run a cable that has one`,
    };
  }
  if (core.colour === PROTECTIVE && core.sleeve) {
    return {
      message: `${name} is sleeved ${colourName(core.sleeve)}`,
      found: core.sleeve,
      allowed: 'no sleeve',
      mend: 'A green-yellow core is never made a live by a sleeve: run a cable with enough cores',
    };
  }
  if (astray !== undefined) {
    const point = pointName(network.nodes[astray]!.id);
    return {
      message: `${name}, marked green-yellow, joins ${point}, which is no earth`,
      mend: `Take another core to ${point}: run a cable with enough cores`,
    };
  }
  if (core.colour !== PROTECTIVE) {
    return {
      message: `${name} is an earth by its sleeve alone`,
      found: core.colour,
      allowed: PROTECTIVE,
      mend: `Use the green-yellow core of ${core.cable}, or run a cable that has one`,
    };
  }
  const limit = EXTRA_LOW_LIMITS.ac;
  const live = [...simulation.modes.values()].some((settled) =>
    [core.from, core.to].some((node) => voltsToEarth(subject, settled, node, limit) > limit),
  );
  if (!live) return null;
  return {
    message: `${name}, marked green-yellow, is live`,
    mend: 'Find what feeds it, isolated and proved dead, and disconnect the two from each other',
  };
}
