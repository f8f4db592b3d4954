import { describe, expect, it } from 'vitest';
import {
  type Complex,
  complex,
  potential,
  REFERENCE,
  settleMode,
} from '../../src/circuit/index.ts';
import { type BareBranch, denseSolve } from '../support/dense.ts';
import { randomBranches, randomCurrents } from '../support/networks.ts';
import { circuit } from '../support/notation.ts';
import { property } from '../support/property.ts';
import { type Random, random } from '../support/random.ts';
import { refereePotentials, wideSolve } from '../support/referee.ts';
import { engineSolve, engineSolveSources } from '../support/star-mesh.ts';
import { addWide, relativeError, subtractWide, WIDE_ZERO, wide } from '../support/wide.ts';

/** The answer in 512-bit arithmetic, to which both others are held. */
const exactSolve = (nodes: number, branches: readonly BareBranch[], injected: readonly Complex[]) =>
  wideSolve(
    nodes,
    branches.map((b) => ({ ...b, y: wide(b.y.re, b.y.im) })),
    injected.map(({ re, im }) => wide(re, im)),
  );

/** Largest relative error of any single node, however small its voltage is beside the others. */
const worstNode = (got: readonly Complex[], exact: ReturnType<typeof exactSolve>): number =>
  Math.max(...got.map((v, i) => relativeError(v, exact[i]!)));

describe('the referee itself', () => {
  it('gives the thirds of a divider to the last digit', () => {
    const solved = exactSolve(
      2,
      [
        { from: 0, to: 1, y: complex(1) },
        { from: 1, to: REFERENCE, y: complex(0.5) },
      ],
      [complex(1), complex(0)],
    );
    expect(relativeError(complex(3), solved[0]!)).toBe(0);
    expect(relativeError(complex(2), solved[1]!)).toBe(0);
  });
});

describe('accuracy beside admittances fifteen decades apart', () => {
  // A core joined by strong contacts to others, tied to earth by picosiemens alone. One
  // ampere into it: v0 = 1/g0 + the drop along the chain, in closed form.
  const chain = (links: number, weak: number): BareBranch[] => [
    { from: 0, to: REFERENCE, y: complex(weak) },
    ...Array.from({ length: links }, (_, i) => ({ from: i, to: i + 1, y: complex(20) })),
  ];

  it('keeps every digit of a floating chain, by its closed form', () => {
    const weak = 2e-14;
    const injected = Array.from({ length: 11 }, (_, i) => complex(i === 10 ? 1 : 0));
    const solved = engineSolve(11, chain(10, weak), injected);
    solved.forEach(({ re }, i) => {
      const expected = 1 / weak + i / 20;
      expect(Math.abs(re - expected) / expected).toBeLessThan(4 * Number.EPSILON);
    });
  });

  it('where ordinary elimination has lost most of them', () => {
    const weak = 2e-14;
    const injected = Array.from({ length: 11 }, (_, i) => complex(i === 10 ? 1 : 0));
    const [first] = denseSolve(11, chain(10, weak), injected);
    expect(Math.abs(first!.re * weak - 1)).toBeGreaterThan(1e-3);
  });

  /** A resistive network, currents of one sign into it: of opposite ones, a voltage may itself cancel to nothing. */
  function resistive(from: Random) {
    const nodes = 2 + from.below(24);
    const branches = randomBranches(from, { nodes, low: 1e-12, high: 1e3, angles: [0, 0] });
    const injected = Array.from({ length: nodes }, () => complex(from.next()));
    return [nodes, branches, injected] as const;
  }

  property('keeps it on any resistive network', 40, (from) => {
    const network = resistive(from);
    const error = worstNode(engineSolve(...network), exactSolve(...network));
    expect(error).toBeLessThan(1e-14);
  });

  it('where ordinary elimination has lost ten of sixteen digits on one of 40', () => {
    const networks = Array.from({ length: 40 }, (_, i) => resistive(random(i)));
    const worst = networks.map((one) => worstNode(denseSolve(...one), exactSolve(...one)));
    expect(Math.max(...worst)).toBeGreaterThan(1e-6);
  });

  property('keeps it with capacitances among them', 40, (from) => {
    const nodes = 2 + from.below(24);
    const strong = randomBranches(from, { nodes, low: 1, high: 1e3, angles: [-60, 0] });
    // Only the strays reach the reference, as in a circuit that is isolated.
    const floating = strong.filter(({ to }) => to !== REFERENCE);
    const strays = Array.from({ length: nodes }, (_, node) => ({
      from: node,
      to: REFERENCE,
      y: complex(1e-12, from.spread(1e-10, 1e-7)),
    }));
    const branches = [...floating, ...strays];
    const injected = randomCurrents(from, nodes);
    const exact = exactSolve(nodes, branches, injected);
    const error = worstNode(engineSolve(nodes, branches, injected), exact);
    expect(error).toBeLessThan(1e-11);
  });
});

describe('sources inside what floats', () => {
  property('gives what currents at both ends give', 40, (from) => {
    const nodes = 2 + from.below(24);
    const branches = randomBranches(from, { nodes, low: 0.01, high: 10, angles: [-60, 60] });
    const flows = randomCurrents(from, branches.length);
    const injected = Array.from({ length: nodes }, () => WIDE_ZERO);
    branches.forEach((b, k) => {
      const flow = wide(flows[k]!.re, flows[k]!.im);
      if (b.from !== REFERENCE) injected[b.from] = addWide(injected[b.from]!, flow);
      if (b.to !== REFERENCE) injected[b.to] = subtractWide(injected[b.to]!, flow);
    });
    const exact = wideSolve(
      nodes,
      branches.map((b) => ({ ...b, y: wide(b.y.re, b.y.im) })),
      injected,
    );
    const error = worstNode(engineSolveSources(nodes, branches, flows), exact);
    expect(error).toBeLessThan(1e-11);
  });

  // One ampere at both ends, entered and taken out, would have to cancel to sixteen digits.
  it.each([100, 1, 0.05])('keeps a battery of %s Ω to earth to the last digits', (ohms) => {
    const network = circuit(`
      E1 pair: source call plus { volts: 24, ohms: ${ohms} }
      E1 input: sensing plus back { ohms: 4700, ratedVolts: 24 }
      B1 contact: contact a b { closed: calling }
      W2: flex 0.5 12; BN E1.call B1.a; BU E1.back B1.b; spare GY
    `);
    const { solution } = settleMode(network, 'calling', { 'B1.calling': true });
    const exact = refereePotentials(solution, 'dc');
    for (const { index, id } of network.nodes) {
      expect(relativeError(potential(solution.dc, index), exact[index]!), id).toBeLessThan(1e-14);
    }
  });
});
