import {
  type Complex,
  complex,
  factorise,
  gather,
  type Potentials,
  planElimination,
  solveFor,
  solveSources,
  type Topology,
} from '../../src/circuit/index.ts';
import type { BareBranch } from './dense.ts';

const factorOf = (topology: Topology, branches: readonly BareBranch[]) =>
  factorise(
    topology,
    gathered(
      topology,
      branches.map(({ y }) => y),
    ),
  );

/** Numbers of branches summed by slot, in pairs. */
const gathered = (topology: Topology, numbers: readonly Complex[]) =>
  gather(
    topology,
    Float64Array.from(numbers, ({ re }) => re),
    Float64Array.from(numbers, ({ im }) => im),
  );

const voltages = (potentials: Potentials) =>
  Array.from({ length: potentials.length / 2 }, (_, node) =>
    complex(potentials[2 * node]!, potentials[2 * node + 1]!),
  );

/** Node voltages of a bare network by the engine, for currents into the nodes. */
export function engineSolve(
  nodes: number,
  branches: readonly BareBranch[],
  injected: readonly Complex[],
): Complex[] {
  const topology = planElimination(nodes, branches);
  const flows = new Float64Array(2 * nodes);
  injected.forEach(({ re, im }, node) => {
    flows.set([re, im], 2 * topology.step[node]!);
  });
  return voltages(solveFor(factorOf(topology, branches), flows));
}

/** Node voltages of a bare network by the engine, for source currents in its branches. */
export function engineSolveSources(
  nodes: number,
  branches: readonly BareBranch[],
  flows: readonly Complex[],
): Complex[] {
  const topology = planElimination(nodes, branches);
  const driven = flows.map(({ re, im }, branch) => {
    const sense = topology.sense[branch]!;
    return complex(sense * re, sense * im);
  });
  return voltages(solveSources(factorOf(topology, branches), gathered(topology, driven)));
}
