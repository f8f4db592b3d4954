import { expect, test } from 'vitest';
import {
  type Case,
  type Observation,
  observe,
  openCase,
  rank,
  reasons,
  verdict,
} from '../../../src/diagnosis/inference/index.ts';
import { live, look, modelOf } from './jobs.ts';

// Cases that every engineer knows: common practice, no source.

const reporting = (id: string, ...observations: Observation[]): Case =>
  observations.reduce(observe, openCase(modelOf(id)));

/** Likeliest explanations that account for everything reported. */
const explained = (of: Case) => rank(of).explanations.filter((e) => e.against.length === 0);

/** Share of the explanations whose first fault has an id of this kind, of all the entry models. */
function shareOf(of: Case, kind: RegExp): number {
  const { explanations, notAsShown } = rank(of);
  const share = explanations.reduce(
    (sum, { hypothesis, share }) => sum + (kind.test(hypothesis.id) ? share : 0),
    0,
  );
  return share / (1 - notAsShown);
}

const LOOP = [
  look('heating', 'B1.calling', true),
  look('heating', 'E1.display', true),
  look('heating', 'E1.burner', false),
  live('heating', 'E1.call feed', 'E1.N', 'live'),
  live('heating', 'E1.call return', 'E1.N', 'dead'),
];
const CONTACT = /^B1\/.*contact/;
const WIRING = /^W3\./;

test('call feed live, call return dead, the control shows a call: its contact or its wiring', () => {
  const found = reporting('combi-two-wire', ...LOOP);
  expect(shareOf(found, CONTACT) + shareOf(found, WIRING)).toBeGreaterThan(0.9);
  expect(shareOf(found, CONTACT)).toBeGreaterThan(0.1);
  expect(shareOf(found, WIRING)).toBeGreaterThan(0.1);
  expect(reasons(found, rank(found).explanations[0]!).because).toBe(
    'Because switched live back at the boiler E1 has no volts while live to stat at the boiler E1 is live (Heating call).',
  );
});

test.each(['combi-condensate-pump', 'combi-wireless-condensate-pump'])(
  '%s: boiler dark and reservoir full is no supply fault',
  (id) => {
    const found = reporting(
      id,
      look('condensate-high', 'E1.display', false),
      look('condensate-high', 'M1.full', true),
    );
    const [top] = rank(found).repairs;
    expect(top!.explanations[0]!.hypothesis.id).not.toMatch(/^(F1|Q1|W1|W2)\b/);
    // No hum: the pump, or no supply to it. With the lights on and the front fuse whole, the pump.
    const silent = observe(found, look('condensate-high', 'M1.running', false));
    const fuse = { kind: 'fuse', mode: 'isolated', branch: 'Q1/fuse', answer: 'intact' } as const;
    const left = rank(observe(silent, fuse)).repairs.filter(({ key }) => !/F1|Q1/.test(key));
    expect(left[0]!.explanations[0]!.hypothesis.id).toMatch(/^M1\//);
  },
);

test.each(['combi-condensate-pump', 'combi-wireless-condensate-pump'])(
  '%s: boiler dark with the reservoir full on an ordinary call: the overflow switch does its job',
  (id) => {
    const found = reporting(
      id,
      look('standby', 'E1.display', false),
      look('standby', 'M1.full', true),
    );
    const [top] = rank(found).repairs;
    expect(top!.explanations[0]!.hypothesis).toMatchObject({
      id: 'M1.condensate high',
      title: 'No fault: condensate above the overflow level (M1)',
      circumstance: { safeguard: true },
    });
    expect(top!.repair).toBe(
      'M1 is doing its job. Find out what made it act and put that right; only then reset it, where it has a reset. Never bridge it.',
    );
    expect(reasons(found, top!.explanations[0]!)).toMatchObject({ against: '' });
    // With the reservoir empty it is something else.
    const empty = reporting(
      id,
      look('standby', 'E1.display', false),
      look('standby', 'M1.full', false),
    );
    expect(shareOf(empty, /^M1\.condensate high$/)).toBeLessThan(0.01);
  },
);

test('everything dead at the spur: its own switch may be off, and nothing broken', () => {
  const found = reporting(
    'combi-two-wire',
    look('standby', 'E1.display', false),
    live('standby', 'Q1.supply L', 'Q1.supply N', 'live'),
    live('standby', 'Q1.load L', 'Q1.load N', 'dead'),
  );
  const off = rank(found).explanations.find(({ hypothesis }) => hypothesis.id === 'Q1.off')!;
  expect(off.against).toEqual([]);
  expect(
    rank(found)
      .repairs.slice(0, 3)
      .map(({ key }) => key),
  ).toContain('as it is Q1.off');
  expect(off.hypothesis.repair).toMatch(/^Find out who switched Q1 off, and why, before it is/);
});

test.each(['combi-two-wire', 'combi-wireless', 'combi-wireless-condensate-pump'])(
  '%s: live on both sides of the boiler and dead across it is a neutral lost',
  (id) => {
    const boiler = [
      live('standby', 'E1.L', 'E1.N', 'dead'),
      live('standby', 'E1.L', 'E1.E', 'live'),
      live('standby', 'E1.N', 'E1.E', 'live'),
    ];
    const found = reporting(id, ...boiler);
    expect(explained(found).length).toBeGreaterThan(0);
    for (const { hypothesis } of rank(found).explanations.slice(0, 3))
      expect(hypothesis.id).toMatch(/\.BU[@:]|neutral/);
  },
);

test('receiver and boiler dead with the spur live: fed through the control is among the causes', () => {
  const found = reporting(
    'combi-wireless',
    look('standby', 'E1.display', false),
    look('standby', 'K1.lamp', false),
    live('standby', 'Q1.load L', 'Q1.load N', 'live'),
  );
  const causes = explained(found).map(({ hypothesis }) => hypothesis.id);
  expect(causes).toContain('W2.BN@2:fed from E1.call return');
  expect(verdict(found).kind).toBe('fits');
});
