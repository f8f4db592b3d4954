import { describe, expect } from 'vitest';
import { type Complex, complex, magnitude, REFERENCE } from '../../src/circuit/index.ts';
import { type BareBranch, denseSolve } from '../support/dense.ts';
import { randomBranches, randomCurrents } from '../support/networks.ts';
import { property } from '../support/property.ts';
import type { Random } from '../support/random.ts';
import { engineSolve, engineSolveSources } from '../support/star-mesh.ts';

/** Angles of passive branches, from inductance to capacitance. */
const PASSIVE: readonly [number, number] = [-85, 85];
/** A double's rounding. */
const EPSILON = 2 ** -52;

interface Trial {
  readonly from: Random;
  readonly nodes: number;
  readonly branches: readonly BareBranch[];
  readonly injected: readonly Complex[];
}

/** Says that a law holds of any passive network with any currents into it. */
function law(name: string, check: (trial: Trial) => void): void {
  property(name, 60, (from) => {
    const nodes = 2 + from.below(30);
    const branches = randomBranches(from, { nodes, low: 0.01, high: 10, angles: PASSIVE });
    check({ from, nodes, branches, injected: randomCurrents(from, nodes) });
  });
}

const at = (solved: readonly Complex[], node: number): Complex =>
  node === REFERENCE ? complex(0) : solved[node]!;
const distance = (a: Complex, b: Complex): number => Math.hypot(a.re - b.re, a.im - b.im);
const product = (a: Complex, b: Complex): Complex =>
  complex(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re);
const largest = (solved: readonly Complex[]): number => Math.max(...solved.map(magnitude));

/** Largest difference of two sets of voltages, as a share of the largest voltage. */
const apart = (a: readonly Complex[], b: readonly Complex[]): number =>
  Math.max(...a.map((v, i) => distance(v, b[i]!))) / largest(b);

/** Voltage at `to` for one ampere into `from`. */
function transfer({ nodes, branches }: Trial, from: number, to: number): Complex {
  const injected = Array.from({ length: nodes }, (_, i) => complex(i === from ? 1 : 0));
  return engineSolve(nodes, branches, injected)[to]!;
}

describe('laws of any passive network', () => {
  law(
    'Kirchhoff: what flows into a node flows out of it, to rounding',
    ({ nodes, branches, injected }) => {
      const solved = engineSolve(nodes, branches, injected);
      const sum = injected.map(({ re, im }) => ({ re, im, scale: Math.hypot(re, im) }));
      for (const { from, to, y } of branches) {
        const [a, b] = [at(solved, from), at(solved, to)];
        const flow = product(y, complex(a.re - b.re, a.im - b.im));
        const scale = magnitude(y) * (magnitude(a) + magnitude(b));
        for (const [node, sign] of [[from, -1] as const, [to, 1] as const]) {
          const total = sum[node];
          if (!total) continue;
          total.re += sign * flow.re;
          total.im += sign * flow.im;
          total.scale += scale;
        }
      }
      for (const { re, im, scale } of sum) {
        expect(Math.hypot(re, im) / scale).toBeLessThan(16 * EPSILON);
      }
    },
  );

  law(
    'Tellegen: the power put in is the power the branches take, active and reactive',
    ({ nodes, branches, injected }) => {
      const solved = engineSolve(nodes, branches, injected);
      const given = injected
        .map(({ re, im }, i) => product(solved[i]!, complex(re, -im)))
        .reduce((a, b) => complex(a.re + b.re, a.im + b.im));
      const taken = branches
        .map(({ from, to, y }) => {
          const square = distance(at(solved, from), at(solved, to)) ** 2;
          return complex(square * y.re, -square * y.im);
        })
        .reduce((a, b) => complex(a.re + b.re, a.im + b.im));
      expect(distance(given, taken) / magnitude(given)).toBeLessThan(1e-12);
    },
  );

  law('reciprocity: the transfer impedance is the same both ways', (trial) => {
    const a = trial.from.below(trial.nodes);
    const b = trial.from.below(trial.nodes);
    const there = transfer(trial, a, b);
    const back = transfer(trial, b, a);
    expect(distance(there, back)).toBeLessThanOrEqual(1e-12 * magnitude(there));
  });

  law(
    'scaling: every impedance k times as large makes every voltage k times as large',
    ({ from, nodes, branches, injected }) => {
      const k = from.spread(1e-6, 1e6);
      const scaled = branches.map((b) => ({ ...b, y: complex(b.y.re / k, b.y.im / k) }));
      const plain = engineSolve(nodes, branches, injected);
      const larger = engineSolve(nodes, scaled, injected);
      const expected = plain.map(({ re, im }) => complex(k * re, k * im));
      expect(apart(larger, expected)).toBeLessThan(1e-12);
    },
  );

  law(
    'superposition: two sets of currents together make the sum of their voltages',
    ({ from, nodes, branches, injected }) => {
      const others = randomCurrents(from, nodes);
      const sum = (a: readonly Complex[], b: readonly Complex[]) =>
        a.map((v, i) => complex(v.re + b[i]!.re, v.im + b[i]!.im));
      const together = engineSolve(nodes, branches, sum(injected, others));
      const apartAndAdded = sum(
        engineSolve(nodes, branches, injected),
        engineSolve(nodes, branches, others),
      );
      expect(apart(together, apartAndAdded)).toBeLessThan(1e-12);
    },
  );

  law(
    'turning: currents a quarter turn later make voltages a quarter turn later',
    ({ from, nodes, branches }) => {
      const later = ({ re, im }: Complex) => complex(-im, re);
      // One current alone, and one source alone in a branch: all others are nothing.
      const [node, branch] = [from.below(nodes), from.below(branches.length)];
      const alone = (count: number, at: number, flow: Complex) =>
        Array.from({ length: count }, (_, i) => (i === at ? flow : complex(0)));
      for (const flow of [complex(1), complex(0, 1), complex(0.6, -0.8)]) {
        expect(
          apart(
            engineSolve(nodes, branches, alone(nodes, node, later(flow))),
            engineSolve(nodes, branches, alone(nodes, node, flow)).map(later),
          ),
        ).toBeLessThan(1e-12);
        expect(
          apart(
            engineSolveSources(nodes, branches, alone(branches.length, branch, later(flow))),
            engineSolveSources(nodes, branches, alone(branches.length, branch, flow)).map(later),
          ),
        ).toBeLessThan(1e-12);
      }
    },
  );

  law(
    'a source in a branch is its current into one end and out of the other',
    ({ from, nodes, branches }) => {
      const flows = branches.map(() => complex(from.next() - 0.5, from.next() - 0.5));
      const injected = Array.from({ length: nodes }, () => ({ re: 0, im: 0 }));
      for (const [i, { from: a, to: b }] of branches.entries()) {
        for (const [node, sign] of [[a, 1] as const, [b, -1] as const]) {
          if (node === REFERENCE) continue;
          injected[node]!.re += sign * flows[i]!.re;
          injected[node]!.im += sign * flows[i]!.im;
        }
      }
      const ours = engineSolveSources(nodes, branches, flows);
      expect(apart(ours, denseSolve(nodes, branches, injected))).toBeLessThan(1e-10);
    },
  );

  law(
    'which end of a branch is called its first changes nothing, the reference included',
    ({ nodes, branches, injected, from }) => {
      const turned = branches.map(({ from: a, to: b, y }) => ({ from: b, to: a, y }));
      const flows = branches.map(() => complex(from.next() - 0.5, from.next() - 0.5));
      const back = flows.map(({ re, im }) => complex(-re, -im));
      expect(
        apart(engineSolve(nodes, turned, injected), engineSolve(nodes, branches, injected)),
      ).toBeLessThan(1e-12);
      expect(
        apart(engineSolveSources(nodes, turned, back), engineSolveSources(nodes, branches, flows)),
      ).toBeLessThan(1e-12);
    },
  );

  property('two sources of one angle in a network of resistances', 60, (from) => {
    // All currents real, then all imaginary: nothing may be passed over for its other half.
    const nodes = 3 + from.below(12);
    const branches = randomBranches(from, { nodes, low: 0.01, high: 10, angles: [0, 0] });
    const earthed = branches.findIndex(({ to }) => to === REFERENCE);
    const between = branches.findLastIndex(({ to }) => to !== REFERENCE);
    if (between === -1) return;
    for (const turn of [complex(1), complex(0, 1)]) {
      const flows = branches.map(() => complex(0));
      const injected = Array.from({ length: nodes }, () => complex(0));
      flows[earthed] = turn;
      flows[between] = product(complex(2), turn);
      injected[branches[earthed]!.from] = flows[earthed];
      for (const [node, sign] of [
        [branches[between]!.from, 1],
        [branches[between]!.to, -1],
      ] as const) {
        const { re, im } = injected[node]!;
        injected[node] = complex(re + sign * flows[between].re, im + sign * flows[between].im);
      }
      const ours = engineSolveSources(nodes, branches, flows);
      expect(apart(ours, denseSolve(nodes, branches, injected))).toBeLessThan(1e-10);
    }
  });

  law(
    'merging: a link of next to nothing makes two nodes one',
    ({ from, nodes, branches, injected }) => {
      if (nodes < 3) return;
      const kept = from.below(nodes - 1);
      const gone = nodes - 1;
      const link = { from: kept, to: gone, y: complex(1e12) };
      const linked = engineSolve(nodes, [...branches, link], injected);
      const renamed = (node: number) => (node === gone ? kept : node);
      const merged = branches
        .map((b) => ({ ...b, from: renamed(b.from), to: renamed(b.to) }))
        .filter((b) => b.from !== b.to);
      const currents = injected
        .slice(0, gone)
        .map((j, i) =>
          i === kept ? complex(j.re + injected[gone]!.re, j.im + injected[gone]!.im) : j,
        );
      const one = engineSolve(gone, merged, currents);
      expect(apart(linked.slice(0, gone), one)).toBeLessThan(1e-9);
      expect(distance(linked[gone]!, one[kept]!) / largest(one)).toBeLessThan(1e-9);
    },
  );

  law(
    'the star-mesh transform gives what Gaussian elimination gives',
    ({ nodes, branches, injected }) => {
      const ours = engineSolve(nodes, branches, injected);
      expect(apart(ours, denseSolve(nodes, branches, injected))).toBeLessThan(1e-11);
    },
  );
});
