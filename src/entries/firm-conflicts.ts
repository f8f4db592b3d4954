import { stringify } from 'yaml';
import type { Judgement } from '../standards/index.ts';
import { makeProblem } from './problem.ts';
import type { Entries, Problem } from './types.ts';

/** A firm's standard that systems of the reference do not meet. */
export interface Conflict {
  readonly standard: string;
  /** Ids of the systems, with what is found in each. */
  readonly systems: ReadonlyMap<string, readonly string[]>;
}

/**
 * What a firm asks for and the reference's own systems do not meet, by standard: nothing that the
 * firm could mend in those files.
 * @param judgements by system id
 */
export function conflictsOf(
  { systems, standards }: Pick<Entries, 'systems' | 'standards'>,
  judgements: ReadonlyMap<string, readonly Judgement[]>,
): Conflict[] {
  return [...standards].flatMap(([standard, { origin, data }]) => {
    if (origin === 'reference' || data.severity === 'advice') return [];
    const met = [...systems].flatMap(([id, system]) => {
      const judged = judgements.get(id)?.find((one) => one.standard === standard);
      if (system.origin !== 'reference' || !judged || judged.findings.length === 0) return [];
      return [[id, judged.findings.map(({ message }) => message)] as const];
    });
    return met.length === 0 ? [] : [{ standard, systems: new Map(met) }];
  });
}

const WAYS =
  'Three ways: an exception with its reason for each system (npm run check -- --firm FOLDER --exceptions writes them as drafts); an entry of yours that extends or replaces the system and meets it; or the system hidden in firm.yaml';

/** Problems with those of each conflict told as one, at the standard that asks for it. */
export function conflictsAsOne(
  { systems, standards }: Pick<Entries, 'systems' | 'standards'>,
  conflicts: readonly Conflict[],
  problems: readonly Problem[],
): Problem[] {
  const isPartOf = ({ code, file, message }: Problem, { standard, systems: own }: Conflict) =>
    code === 'standard-breached' &&
    message.endsWith(`(house standard ${standard})`) &&
    [...own.keys()].some((id) => systems.get(id)!.file === file);
  const told = conflicts.map((conflict): Problem => {
    const { places } = standards.get(conflict.standard)!;
    const of = conflict.systems.size;
    const message = `${of === 1 ? 'one' : of} of the reference’s own systems ${of === 1 ? 'does' : 'do'} not meet this`;
    const beneath = [...conflict.systems].map(
      ([id, found]) =>
        `${systems.get(id)!.data.title}: ${found[0]}${found.length > 1 ? `, and ${found.length - 1} more` : ''}`,
    );
    const path = ['rule'];
    return makeProblem('standard-conflicts', places.key(path), path, message, {
      mend: WAYS,
      beneath,
    });
  });
  const left = problems.filter((one) => !conflicts.some((conflict) => isPartOf(one, conflict)));
  return [...left, ...told];
}

/**
 * An entry over a system of the reference that excepts it from standards, as a draft: why, and
 * who allows it, are for a person to write.
 * @param from first day of the exception, YYYY-MM-DD
 * @param until last day of it
 */
export function exceptionsText(
  system: string,
  standards: readonly string[],
  { from, until }: { readonly from: string; readonly until: string },
): string {
  const exceptions = standards.map((standard) => ({
    standard,
    why: 'To be written: why it is not met here',
    by: 'To be written: who allows it',
    from,
    until,
  }));
  return `---\n${stringify({ extends: system, exceptions }, { lineWidth: 0 })}# Nobody has reviewed this yet. Whoever reads it through: npm run review\n---\n`;
}
