import type { Standard } from '../../schemas/index.ts';
import type { Simulation } from '../circuit/index.ts';
import { type Judgement, judge, type NamedStandard } from '../standards/index.ts';
import { type Report, reportFor } from './report.ts';
import type { Entries, Problem } from './types.ts';

/** Every system judged by every standard, with what fails and what is only told. */
export interface StandardsProof {
  /** By system id; each in the order of the standards' file names. */
  readonly judgements: ReadonlyMap<string, readonly Judgement[]>;
  readonly problems: readonly Problem[];
  readonly warnings: readonly Problem[];
}

/**
 * Judges every simulated system by every standard.
 * @param simulations by system id; a system without one is passed over.
 * @param today date by which exceptions hold, YYYY-MM-DD.
 * @param advance called after each system that is judged or passed over.
 */
export function standardsProof(
  { systems, standards }: Pick<Entries, 'systems' | 'standards'>,
  simulations: ReadonlyMap<string, Simulation>,
  today: string,
  advance: () => void = () => {},
): StandardsProof {
  const named: NamedStandard[] = [...standards].map(([id, { data }]) => ({ id, standard: data }));
  const judgements = new Map<string, readonly Judgement[]>();
  const problems: Problem[] = [];
  const warnings: Problem[] = [];
  for (const [id, { places }] of systems) {
    const simulation = simulations.get(id);
    const judged = simulation ? judge(named, simulation, today) : [];
    advance();
    if (!simulation) continue;
    judgements.set(id, judged);
    for (const judgement of judged) {
      const { severity } = standards.get(judgement.standard)!.data;
      const [breaches, idle] = [reportFor(places), reportFor(places)];
      reportBreaches(breaches, judgement);
      reportIdle(breaches, idle, judgement);
      if (fails(severity)) problems.push(...breaches.problems);
      else warnings.push(...breaches.problems.map(asWarning));
      warnings.push(...idle.problems.map(asWarning));
    }
  }
  return { judgements, problems, warnings };
}

/** Whether a breach of a standard fails the check and the build. */
const fails = (severity: Standard['severity']): boolean => severity !== 'advice';

/** The same problem as one that is told and does not fail. */
export const asWarning = (problem: Problem): Problem => ({ ...problem, warning: true });

function reportBreaches(report: Report, { standard, findings }: Judgement): void {
  for (const { path, message, found, allowed, mend } of findings) {
    const said = `${message} (house standard ${standard})`;
    report.key('standard-breached', path, said, { found, allowed, mend });
  }
}

function reportIdle(breaches: Report, idle: Report, { standard, findings, idle: all }: Judgement) {
  for (const { exception, because } of all) {
    const path = ['exceptions', exception.index];
    if (because !== 'covers nothing' && findings.length > 0) {
      const [key, verb] = because === 'ended' ? ['until', 'ended'] : ['from', 'begins'];
      const date = because === 'ended' ? exception.until : exception.from;
      const message = `the exception to ${standard} ${verb} on ${date}, and the standard is not met`;
      breaches.value('exception-out-of-date', [...path, key!], message, { found: date });
    } else if (because !== 'not begun') {
      const where =
        findings.length > 0 ? 'what is not met stands elsewhere' : 'the system meets it';
      const message = `this exception to ${standard} covers nothing: ${where}`;
      idle.value('exception-unneeded', [...path, 'standard'], message, { found: standard });
    }
  }
}
