import { buildNetwork, type Simulation, simulate } from '../circuit/index.ts';
import type { Catalogue, Composed } from '../compose/index.ts';
import { type Finding, type NamedStandard, subjectOf, verdictOn } from '../standards/index.ts';
import { missedModes } from './against-demands.ts';
import { plainly } from './plain.ts';
import { GRAVITY } from './standing-words.ts';

/** Why an arrangement is not in order. */
export interface Unsound {
  /** Title of the standard it is against; absent where it does otherwise than it must. */
  readonly standard?: string;
  /** What was found, in a sentence without its full stop. */
  readonly found: string;
}

/** A composed arrangement in all its modes. */
export const simulated = ({ system }: Composed, { devices }: Catalogue): Simulation =>
  simulate(buildNetwork('composed', system, devices));

/**
 * The first thing that makes an arrangement unsound: a standard that is more than advice, else a
 * mode in which something else is seen than must be. Undefined where there is none.
 */
export function unsoundness(
  composed: Composed,
  catalogue: Catalogue,
  standards: readonly NamedStandard[],
): Unsound | undefined {
  const simulation = simulated(composed, catalogue);
  const subject = subjectOf(simulation);
  const severe = standards.filter(({ standard }) => standard.severity !== 'advice');
  for (const { standard } of severe.toSorted(
    (a, b) => GRAVITY[a.standard.severity] - GRAVITY[b.standard.severity],
  )) {
    const verdict = verdictOn(standard, subject, simulation);
    if (verdict.state === 'breached')
      return {
        standard: standard.title,
        found: wordsOf(simulation.network, verdict.findings[0]!),
      };
  }
  const [missed] = missedModes(composed, simulation);
  if (!missed) return undefined;
  const { title } = composed.system.modes[missed.mode]!;
  return { found: `in “${title}” ${missed.what}` };
}

/** A finding in a sentence: what is wrong, and what is allowed where that is a figure. */
function wordsOf(network: Simulation['network'], { message, allowed }: Finding): string {
  const said = plainly(network, message);
  return allowed === undefined ? said : `${said}; allowed: ${allowed}`;
}
