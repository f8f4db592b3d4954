import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { SystemData, systemData } from '../../src/data/index.ts';
import { type BareBranch, denseSolve } from '../support/dense.ts';
import { shippedSystems } from '../support/shipped.ts';

/**
 * Recomputes readings from the data file alone, with ordinary elimination: what somebody
 * else's tool would do. It shares nothing with the engine but the file.
 */
function recompute(data: SystemData, mode: string) {
  const index = new Map(data.nodes.map((n, i) => [n.id, i]));
  const at = (id: string) => (id === 'supply' ? -1 : index.get(id)!);
  const omega = 2 * Math.PI * data.supply.hertz;
  const branches: BareBranch[] = [];
  const injected = data.nodes.map(() => ({ re: 0, im: 0 }));
  for (const branch of data.branches) {
    const parts = branch.otherwise[mode] ?? branch.parts;
    const [from, to] = [at(branch.from), at(branch.to)];
    if (parts.ohms !== null) {
      const x = omega * parts.henries;
      const square = parts.ohms ** 2 + x ** 2;
      const y = { re: parts.ohms / square, im: -x / square };
      branches.push({ from, to, y });
      if (parts.current === 'ac') {
        for (const [node, sign] of [
          [from, 1],
          [to, -1],
        ] as const) {
          if (node < 0) continue;
          injected[node]!.re += sign * parts.volts * y.re;
          injected[node]!.im += sign * parts.volts * y.im;
        }
      }
    }
    if (parts.farads > 0) branches.push({ from, to, y: { re: 0, im: omega * parts.farads } });
  }
  return (from: string, to: string, ohms: number): number => {
    const burden = { from: at(from), to: at(to), y: { re: 1 / ohms, im: 0 } };
    const volts = denseSolve(data.nodes.length, [...branches, burden], injected);
    const [a, b] = [volts[at(from)]!, volts[at(to)]!];
    return Math.hypot(a.re - b.re, a.im - b.im);
  };
}

describe.each(shippedSystems().map((s) => [s.id, s] as const))('data of %s', (_, system) => {
  const data = systemData(system);

  it('is what its schema says', () => {
    expect(SystemData.parse(JSON.parse(JSON.stringify(data)))).toEqual(data);
  });

  it('lets another tool recompute its readings', () => {
    const lines = data.pairs.filter((p) => p.kind === 'line').slice(0, 6);
    for (const { id: mode } of data.modes) {
      const volts = recompute(data, mode);
      for (const { id, ohms } of data.instruments) {
        for (const pair of lines) {
          const stated = data.readings[mode]![id]![pair.id]![0];
          const found = volts(pair.from, pair.to, ohms);
          expect(Math.abs(found - stated)).toBeLessThan(1e-4 * Math.max(1, stated));
        }
      }
    }
  });
});

it('its schema can be written as JSON Schema', () => {
  const schema = z.toJSONSchema(SystemData);
  expect(schema).toMatchObject({ type: 'object', additionalProperties: false });
});
