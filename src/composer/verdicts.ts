import type { Simulation } from '../circuit/index.ts';
import type { Composed } from '../compose/index.ts';
import { type NamedStandard, subjectOf, type Verdict, verdictOn } from '../standards/index.ts';
import { missedModes } from './against-demands.ts';
import { plainly } from './plain.ts';

/** A house standard on this arrangement. */
export interface JudgedBy {
  readonly id: string;
  readonly title: string;
  readonly severity: NamedStandard['standard']['severity'];
  readonly state: Verdict['state'];
  readonly findings: readonly {
    readonly message: string;
    readonly found?: string;
    readonly allowed?: string;
    readonly mend: string;
  }[];
}

/** What every house standard says of a simulated arrangement. */
export function judgedBy(simulation: Simulation, standards: readonly NamedStandard[]): JudgedBy[] {
  const subject = subjectOf(simulation);
  return standards.map(({ id, standard }) => {
    const verdict = verdictOn(standard, subject, simulation);
    const findings = verdict.state === 'breached' ? verdict.findings : [];
    return {
      id,
      title: standard.title,
      severity: standard.severity,
      state: verdict.state,
      findings: findings.map(({ message, found, allowed, mend }) => ({
        message: plainly(simulation.network, message),
        ...(found === undefined ? {} : { found }),
        ...(allowed === undefined ? {} : { allowed }),
        mend,
      })),
    };
  });
}

/** What is seen otherwise than it must be in a mode, by the mode’s title. */
export interface MissedIn {
  readonly mode: string;
  readonly what: string;
}

/** The same of every mode of a composed system. */
export const missedIn = (composed: Composed, simulation: Simulation): MissedIn[] =>
  missedModes(composed, simulation).map(({ mode, what }) => ({
    mode: composed.system.modes[mode]!.title,
    what,
  }));
