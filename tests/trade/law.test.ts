import { describe, expect, it } from 'vitest';
import type { Test } from '../../src/diagnosis/index.ts';
import { ids, shipped } from '../support/signatures.ts';
import { breachesIn, breachesOf } from './law.ts';

describe.each(ids)('%s', (id) => {
  it('no test that a sequence, page or proposal may choose breaks the law of the trade', () => {
    const { simulation, signatures } = shipped(id);
    expect(signatures.tests.flatMap((test) => breachesOf(simulation, test))).toEqual([]);
  });

  it('nor does a step of its sequences', () => {
    const { simulation, sequences } = shipped(id);
    expect(sequences.length).toBeGreaterThan(0);
    expect(sequences.flatMap((one) => breachesIn(simulation, one))).toEqual([]);
  });

  it('a bare plate never tells a failed control from a sound one', () => {
    const { simulation, signatures } = shipped(id);
    const { network } = simulation;
    const plates = [...network.items].flatMap(([item, { device }]) =>
      Object.entries(device.openings).flatMap(([name, { moves }]) =>
        moves.fitted === false ? [{ item, place: `${item}/${name}` }] : [],
      ),
    );
    const condemned = plates.flatMap(({ item, place }) => {
      const read = signatures.tests.flatMap((test, at) =>
        (test.kind === 'live' || test.kind === 'dead') && test.place === place ? [at] : [],
      );
      const at = (answers: readonly string[]) => read.map((test) => answers[test]).join();
      const own = ({ fault }: (typeof signatures.faults)[number]) =>
        fault.id.startsWith(`${item}/`);
      const fuses = signatures.tests.flatMap((test, i) => (test.kind === 'fuse' ? [i] : []));
      // A short that has blown a fuse leaves the plate dead, as any other cause of that does.
      const blew = ({ answers }: (typeof signatures.faults)[number]) =>
        fuses.some((test) => answers[test] === 'blown');
      const sound = at(signatures.sound);
      const blown = new Set(
        signatures.faults.filter((one) => !own(one) && blew(one)).map(({ answers }) => at(answers)),
      );
      return signatures.faults
        .filter(own)
        .filter((one) => at(one.answers) !== sound && !(blew(one) && blown.has(at(one.answers))))
        .map(({ fault }) => `${place}: ${fault.id}`);
    });
    expect(condemned).toEqual([]);
  });
});

// The valve of an unvented cylinder is a safety device, its head too (Approved Document G3).
it.each([
  ['heat-only-two-port', ['Q2/head']],
  ['heat-only-condensate-pump', ['Q2/head']],
  ['system-boiler-internal-pump', ['Q2/head', 'Q3/head']],
  ['heat-only-mid-position', ['Q2/head']],
])('%s: no head comes off the hot-water valve of an unvented cylinder', (id, heads) => {
  const { signatures, simulation } = shipped(id);
  const turned = signatures.tests.flatMap((test) =>
    test.kind === 'act' && test.act === 'spindle' ? [test.place] : [],
  );
  expect(turned).toEqual(heads);
  const { items } = simulation.network;
  const safety = [...items.values()].some(({ device }) => device.family === 'safety');
  const valves = [...items].flatMap(([item, { device }]) =>
    device.family === 'valve' ? [`${item}/head`] : [],
  );
  expect(valves.length > turned.length).toBe(safety);
});

describe('the law finds what breaks it', () => {
  const { simulation, signatures } = shipped('heat-only-two-port');
  const live = signatures.tests.find(({ kind }) => kind === 'live')!;
  const at = (place: string, from: string, to: string): Test =>
    ({ ...live, place, pair: { ...(live as { pair: object }).pair, from, to } }) as Test;

  it.each([
    [
      at('F1/cover', 'F1.L', 'F1.N'),
      'nobody in a consumer unit, sealed case, moulded head or wet place',
    ],
    [at('F1/cover', 'F1.L', 'F1.N'), 'live readings only where they are allowed'],
    [at('F1/cover', 'F1.L', 'F1.N'), 'dead when opened'],
    [at('X1/cover', 'B1.COM', 'B1.N'), 'reachable as things stand'],
  ] as const)('$0.place: $1', (test, law) => {
    expect(breachesOf(simulation, test).map((one) => one.law)).toContain(law);
  });
});
