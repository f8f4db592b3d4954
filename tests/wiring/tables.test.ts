import { describe, expect, it } from 'vitest';
import { INSTRUMENTS, magnitude, read, voltage } from '../../src/circuit/index.ts';
import { itemOf } from '../../src/wiring/index.ts';
import { shippedSystem, shippedSystems } from '../support/shipped.ts';

describe.each(shippedSystems().map((s) => [s.id, s] as const))('%s', (_, system) => {
  const { network, simulation, wiring, readings } = system;
  const rows = wiring.runs.flatMap((run) => run.rows);

  it('has one row for every joined core, and none for a spare one', () => {
    const cores = Object.entries(network.system.cables).flatMap(([cable, { cores: joined }]) =>
      Object.entries(joined).map(([colour, core]) => `${cable}.${colour} ${core.ends.join(' ')}`),
    );
    const shown = rows.map((row) => `${row.id} ${row.from.point} ${row.to.point}`);
    expect(shown.toSorted()).toEqual(cores.toSorted());
    for (const { cable, spare } of wiring.runs) {
      expect(spare).toEqual(network.system.cables[cable]!.spare);
    }
  });

  it('gives each end the class its instrument shows, in every mode', () => {
    for (const row of rows) {
      for (const end of [row.from, row.to]) {
        const modes = end.against === null ? [] : [...simulation.modes.keys()];
        expect(Object.keys(end.classes)).toEqual(modes);
        for (const mode of modes) {
          const { solution } = simulation.modes.get(mode)!;
          const shown = read(solution, end.point, end.against!, INSTRUMENTS[0]!).class;
          expect([row.id, mode, end.classes[mode]]).toEqual([row.id, mode, shown]);
        }
      }
    }
  });

  it('tests every joined line terminal against something at its own item', () => {
    const ends = new Set(rows.flatMap((row) => [row.from.point, row.to.point]));
    const tested = new Set(readings.pairs.flatMap((pair) => [pair.from, pair.to]));
    for (const id of ends) {
      const { terminal } = network.nodes[network.nodeIndex.get(id)!]!;
      if (terminal!.carries !== 'earth') expect([id, tested.has(id)]).toEqual([id, true]);
    }
    for (const pair of readings.pairs) {
      expect([itemOf(pair.from), itemOf(pair.to)]).toEqual([pair.item, pair.item]);
    }
    expect(new Set(readings.pairs.map((pair) => pair.id)).size).toBe(readings.pairs.length);
  });

  it('says that the two ends of one sound core read alike when nothing flows between', () => {
    // Both ends of a core are one point but for its volt drop: millivolts here.
    for (const row of rows) {
      const [a, b] = [row.from.point, row.to.point].map((p) => network.nodeIndex.get(p)!);
      for (const { solution } of simulation.modes.values()) {
        expect(magnitude(voltage(solution.ac, a!, b!))).toBeLessThan(1);
      }
    }
  });
});

describe('the readings grid', () => {
  it('refuses a pair, mode or instrument that it does not have, and says which it has', () => {
    const { readings } = shippedSystem('combi-two-wire');
    expect(() => readings.at('E1.L|E1.Q', 'standby', 'tester')).toThrow(
      /^no reading of E1\.L\|E1\.Q in mode standby on tester; pairs are F1\.L\|F1\.N, /,
    );
    expect(() => readings.at('E1.L|E1.N', 'asleep', 'tester')).toThrow(/modes are standby, /);
  });

  it('reads mains as live and neutral as dead at the boiler (common practice, no source)', () => {
    const { readings } = shippedSystem('combi-two-wire');
    expect(readings.at('E1.L|E1.N', 'standby', 'tester').class).toBe('live');
    expect(readings.at('E1.N|E1.E', 'standby', 'tester').class).toBe('dead');
    expect(readings.at('E1.call return|E1.N', 'standby', 'tester').class).toBe('dead');
    expect(readings.at('E1.call return|E1.N', 'heating', 'tester').class).toBe('live');
  });
});
