import { type SearchTree, walkTree } from '../../diagnosis/search/index.ts';
import {
  ANYTHING,
  problemOf,
  type Start,
  type Step,
  type TestSequence,
} from '../../diagnosis/sequences/index.ts';
import type { ComputedSystem, Solver } from '../../reference/index.ts';

/** One complaint's sequence with our own shares and with those learned. */
export interface ChangedSequence {
  readonly system: ComputedSystem;
  readonly sequence: TestSequence;
  /** First act of hands or tester on the expected way; null where looks alone tell. */
  readonly first: { readonly before: Step | null; readonly after: Step | null };
  readonly isOther: boolean;
  /**
   * Expected minutes with the shares learned: of the order as it was, and as it is now. A search
   * stops within its budget, so the second may be the more.
   */
  readonly minutes: { readonly before: number; readonly after: number };
}

/**
 * How the sequences of a system changed, complaint by complaint, in both histories that have an
 * order of their own.
 * @param before the same system with our own shares
 */
export function changedSequences(
  before: ComputedSystem,
  after: ComputedSystem,
  solver: Solver,
): ChangedSequence[] {
  const pairs = [
    [before.starts, before.sequences, after.starts, after.sequences],
    [
      before.startsSinceWork,
      before.sequencesSinceWork,
      after.startsSinceWork,
      after.sequencesSinceWork,
    ],
  ] as const;
  return pairs.flatMap(([oldStarts, oldSequences, starts, sequences]) =>
    sequences.flatMap((sequence, i): ChangedSequence[] => {
      if (sequence.id === ANYTHING) return [];
      const old = oldSequences[i]!;
      const first = { before: firstAct(old), after: firstAct(sequence) };
      const tree = treeOf(before, oldStarts[i]!, solver);
      const { problem } = problemOf(after.network, after.signatures, starts[i]!);
      return [
        {
          system: after,
          sequence,
          first,
          isOther: first.before?.test.id !== first.after?.test.id,
          minutes: { before: walkTree(problem, tree).minutes, after: sequence.minutes },
        },
      ];
    }),
  );
}

function treeOf({ network, signatures }: ComputedSystem, start: Start, solver: Solver): SearchTree {
  return solver.solveFrom(problemOf(network, signatures, start).problem, start).tree;
}

/** Looks are taken on the way: the first act is the first that is none. */
const firstAct = ({ steps }: TestSequence): Step | null =>
  steps.find(({ test }) => test.kind !== 'look') ?? null;
