import { describe, expect, it } from 'vitest';
import {
  admittance,
  branchCurrent,
  type Complex,
  complex,
  INSTRUMENTS,
  impedanceBetween,
  magnitude,
  partsOf,
  potential,
  REFERENCE,
  read,
  type Solution,
  simulate,
  solve,
  voltage,
} from '../../src/circuit/index.ts';
import { SUPPLY_HERTZ } from '../../src/published/index.ts';
import { shippedNetworks } from '../support/content.ts';
import { withMeter } from '../support/networks.ts';
import { property } from '../support/property.ts';

const cases = [...shippedNetworks().values()].flatMap((network) =>
  [...simulate(network).modes.values()].map(({ mode, state, solution }) => ({
    id: network.id,
    mode,
    state,
    solution,
  })),
);
const KINDS = ['ac', 'dc'] as const;

const conjugate = (z: Complex): Complex => complex(z.re, -z.im);
const product = (a: Complex, b: Complex): Complex =>
  complex(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re);
const total = (values: readonly Complex[]): Complex =>
  values.reduce((a, b) => complex(a.re + b.re, a.im + b.im), complex(0));

/** Electromotive force of a branch at one kind of current, volts. */
const emf = ({ parts }: Solution, branch: number, kind: 'ac' | 'dc'): number =>
  parts[branch]!.current === kind ? parts[branch]!.volts : 0;

describe.each(cases)('$id, $mode', ({ state, solution }) => {
  const { network, parts } = solution;

  it('has every branch as its state makes it', () => {
    expect(parts).toEqual(network.branches.map((b) => partsOf(b, state, SUPPLY_HERTZ)));
  });

  it.each(KINDS)('Kirchhoff: no current is left over at a node, %s', (kind) => {
    const spectrum = solution[kind];
    const left = network.nodes.map(() => ({ re: 0, im: 0, scale: 0 }));
    network.branches.forEach(({ from, to }, i) => {
      const flow = branchCurrent(solution, i, kind);
      const volts =
        magnitude(potential(spectrum, from)) +
        magnitude(potential(spectrum, to)) +
        emf(solution, i, kind);
      const scale = magnitude(admittance(parts[i]!, spectrum.hertz)) * volts;
      for (const [node, sign] of [[from, 1] as const, [to, -1] as const]) {
        if (node === REFERENCE) continue;
        left[node]!.re += sign * flow.re;
        left[node]!.im += sign * flow.im;
        left[node]!.scale += scale;
      }
    });
    // A current through a strong branch is a small difference of large potentials, so the
    // sum is as good as their last digit, not better.
    left.forEach(({ re, im, scale }, i) => {
      const allowed = 16 * Number.EPSILON * scale;
      expect(Math.hypot(re, im), network.nodes[i]!.id).toBeLessThanOrEqual(allowed);
    });
  });

  it.each(KINDS)('power: the sources give what the branches take, %s', (kind) => {
    const spectrum = solution[kind];
    const given: Complex[] = [];
    const taken: Complex[] = [];
    // A supply that idles drives its current by the last digits of 230 V: a nanowatt or so.
    let rounding = 0;
    network.branches.forEach(({ from, to }, i) => {
      const own = emf(solution, i, kind);
      // From `from` to `to` through the branch: what a source drives runs the other way.
      const flow = branchCurrent(solution, i, kind);
      given.push(product(complex(-own), conjugate(flow)));
      const drop = voltage(spectrum, from, to);
      const square = (drop.re - own) ** 2 + drop.im ** 2;
      const y = admittance(parts[i]!, spectrum.hertz);
      taken.push(product(complex(square), conjugate(y)));
      rounding += 16 * Number.EPSILON * magnitude(y) * own ** 2;
    });
    const [source, load] = [total(given), total(taken)];
    const difference = Math.hypot(source.re - load.re, source.im - load.im);
    expect(difference).toBeLessThanOrEqual(1e-9 * magnitude(load) + rounding);
  });

  property(
    'an instrument reads by Thévenin what it reads as a branch of the network',
    6,
    (from) => {
      const [a, b] = [from.pick(network.nodes), from.pick(network.nodes)];
      if (a === b) return;
      for (const instrument of INSTRUMENTS) {
        const shown = read(solution, a.id, b.id, instrument);
        const metered = solve(withMeter(network, a.index, b.index, instrument), state);
        const place = `${a.id} to ${b.id}, ${instrument.id}`;
        const ac = magnitude(voltage(metered.ac, a.index, b.index));
        const dc = voltage(metered.dc, a.index, b.index).re;
        // Beside 230 V to earth a difference keeps no more than the 230 V's last digits.
        expect(Math.abs(shown.ac - ac), place).toBeLessThan(1e-9 * ac + 1e-11);
        expect(Math.abs(shown.dc - dc), place).toBeLessThan(1e-9 * Math.abs(dc) + 1e-11);
      }
    },
  );

  property('reciprocity: the impedance between two points is the same from either', 6, (from) => {
    const [a, b] = [from.pick(network.nodes).index, from.pick(network.nodes).index];
    const there = impedanceBetween(solution.ac, a, b);
    const back = impedanceBetween(solution.ac, b, a);
    const difference = Math.hypot(there.re - back.re, there.im - back.im);
    expect(difference).toBeLessThanOrEqual(1e-12 * magnitude(there));
  });
});
