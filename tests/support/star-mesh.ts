import {
  type Complex,
  complex,
  factorise,
  planElimination,
  solveFor,
  solveSources,
} from '../../src/circuit/index.ts';
import type { BareBranch } from './dense.ts';

const parts = (numbers: readonly Complex[]) =>
  [Float64Array.from(numbers, ({ re }) => re), Float64Array.from(numbers, ({ im }) => im)] as const;

const factorOf = (nodes: number, branches: readonly BareBranch[]) =>
  factorise(
    planElimination(
      nodes,
      branches.map(({ from, to }) => [from, to] as const),
    ),
    ...parts(branches.map(({ y }) => y)),
  );

/** Node voltages of a bare network by the engine, for currents into the nodes. */
export function engineSolve(
  nodes: number,
  branches: readonly BareBranch[],
  injected: readonly Complex[],
): Complex[] {
  const { re, im } = solveFor(factorOf(nodes, branches), ...parts(injected));
  return Array.from(re, (a, i) => complex(a, im[i]!));
}

/** Node voltages of a bare network by the engine, for source currents in its branches. */
export function engineSolveSources(
  nodes: number,
  branches: readonly BareBranch[],
  flows: readonly Complex[],
): Complex[] {
  const { re, im } = solveSources(factorOf(nodes, branches), ...parts(flows));
  return Array.from(re, (a, i) => complex(a, im[i]!));
}
