import { expect, test } from 'vitest';
import { PEOPLE } from '../../../schemas/index.ts';
import { simulate } from '../../../src/circuit/index.ts';
import {
  FAMILIES,
  type Family,
  type Fault,
  faultsOf,
  HISTORIES,
  KINDS,
} from '../../../src/diagnosis/faults/index.ts';
import { shippedNetworks } from '../../support/content.ts';

const networks = shippedNetworks();
const faultsIn = new Map(
  [...networks].map(([id, network]) => [id, faultsOf(simulate(network))] as const),
);
const systems = [...networks.keys()];

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const familiesIn = (faults: readonly Fault[]) => [...new Set(faults.map(({ family }) => family))];

test.each(systems)(
  '%s: a history’s shares come to the families that are there, scaled to one',
  (id) => {
    const faults = faultsIn.get(id)!;
    const present = familiesIn(faults);
    HISTORIES.forEach((history, i) => {
      const all = sum(present.map((family) => FAMILIES[family].percent[i]!));
      for (const family of present) {
        const own = faults.filter((fault) => fault.family === family);
        const share = sum(own.map(({ shares }) => shares[history]));
        expect(share, `${family}, ${history}`).toBeCloseTo(FAMILIES[family].percent[i]! / all, 10);
      }
      expect(sum(faults.map(({ shares }) => shares[history]))).toBeCloseTo(1, 10);
    });
  },
);

test.each(systems)(
  '%s: no cause is at nothing, and each knows its repair, person and source',
  (id) => {
    for (const fault of faultsIn.get(id)!) {
      for (const history of HISTORIES) expect(fault.shares[history], fault.id).toBeGreaterThan(0);
      expect(fault.weight).toBe(fault.shares['worked until now']);
      expect(fault.family).toBe(KINDS[fault.class].family);
      expect(fault.source.cite, fault.id).not.toBe('');
      expect(PEOPLE).toContain(fault.who);
      expect(fault.repair, fault.id).toMatch(/\.$/);
      expect(fault.proving, fault.id).toMatch(/\.$/);
    }
  },
);

test.each(systems)('%s: what is inside a boiler is handed over, and nothing else of it', (id) => {
  const inside = faultsIn.get(id)!.filter(({ repairKey }) => /^boiler /.test(repairKey));
  expect(new Set(inside.map(({ repairKey }) => repairKey)).size).toBe(1);
  for (const fault of inside) {
    expect(fault.who, fault.id).toBe('Gas Safe registered engineer');
    expect(fault.repair).toContain('Hand over to a Gas Safe registered engineer');
  }
  const idle = inside.find(({ id: name }) => name === 'E1:does not fire')!;
  expect(idle.repair).toBe(
    'Supply and call reach the boiler; it does not fire. Hand over to a Gas Safe registered engineer, with code and readings.',
  );
  // No part of a boiler is a cause by itself: none is named as one.
  for (const fault of faultsIn.get(id)!) expect(fault.id).not.toMatch(/^E1\//);
});

test.each(systems)('%s: behind the spur’s faceplate is an electrician’s, its fuse is not', (id) => {
  for (const fault of faultsIn.get(id)!) {
    if (/^(F1|Q1)\/.*:(open|welded)$/.test(fault.id) || /^W1\..*:(broken|short)$/.test(fault.id))
      expect([fault.id, fault.who]).toEqual([fault.id, 'electrician']);
    if (fault.id === 'Q1/fuse:blown') expect(fault.who).toBe('controls engineer');
  }
});

// Approved Document G3: work on an unvented cylinder's safety devices is for a competent person.
test('stat, cut-out and valve of an unvented cylinder are for a person qualified for it', () => {
  const owners = (id: string) => {
    const own = faultsIn.get(id)!.filter(({ who }) => who === 'unvented-qualified engineer');
    return [...new Set(own.flatMap(({ id: name }) => /^[BFQ]\d/.exec(name)?.[0] ?? []))].toSorted();
  };
  expect(owners('heat-only-two-port')).toEqual(['B2', 'F2', 'Q3']);
  expect(owners('heat-only-mid-position')).toEqual([]);
  expect(owners('system-boiler-internal-pump')).toEqual([]);
  for (const { who, repair } of faultsIn.get('heat-only-two-port')!)
    if (who === 'unvented-qualified engineer') expect(repair).toContain('unvented');
});

// Words of the trade: say / not (common practice, no source).
test.each(systems)('%s: titles and repairs name things in words, in the trade’s own', (id) => {
  for (const { title, repair } of faultsIn.get(id)!) {
    const said = `${title} ${repair}`;
    expect(said).not.toMatch(/\breplace (the )?[A-Z]\d/i);
    expect(said).not.toMatch(/maker|mend|exchange|bypass|parted|connection unit|short-circuit/i);
    // A reference stands behind its word, never for it.
    expect(said).not.toMatch(/(^|\. )[A-Z]\d+ /);
    expect(said).not.toMatch(/\b(GNYE|BN|BU|BK|GY)\b/);
  }
});

test.each(systems)('%s: nothing comes loose or is crossed inside a moulded lead', (id) => {
  const { system, items } = networks.get(id)!;
  for (const [cable, { kind, cores }] of Object.entries(system.cables)) {
    if (kind !== 'fixed lead') continue;
    for (const [colour, core] of Object.entries(cores))
      core!.ends.forEach((point, end) => {
        const { family } = items.get(point.split('.')[0]!)!.device;
        if (!['valve', 'pump', 'sensor'].includes(family)) return;
        const name = `${cable}.${colour}@${end + 1}`;
        const there = faultsIn.get(id)!.filter((fault) => fault.id.includes(name));
        expect(there.map((fault) => fault.id)).toEqual([]);
      });
  }
});

// MIL-HDBK-217F Notice 2 (1995), Appendix A, parts count, failures per million hours, ground
// benign and ground fixed: sensitive switch 0.15 and 0.44, toggle switch 0.001 and 0.003.
test('a stat’s contact fails as many times oftener than a hand switch as is published', () => {
  for (const id of systems.filter((one) => !one.startsWith('combi'))) {
    const one = (kind: string) => faultsIn.get(id)!.find((fault) => fault.class === kind)!.weight;
    const ratio = one('statOpen') / one('handSwitch');
    expect(ratio, id).toBeGreaterThan(0.15 / 0.003);
    expect(ratio, id).toBeLessThan(0.44 / 0.001);
  }
});

// Process-industry Weibull lives, seen: motorised valve 25,000 h, pump 35,000 h.
test('one of two valves is met beside the pump as their published lives have it', () => {
  const faults = faultsIn.get('heat-only-two-port')!;
  const share = (family: Family) =>
    sum(faults.filter((fault) => fault.family === family).map(({ weight }) => weight));
  const ratio = share('valve') / 2 / share('pump');
  expect(ratio).toBeGreaterThan((35 / 25) * 0.8);
  expect(ratio).toBeLessThan((35 / 25) * 1.25);
});

test('worked until now, since work, comes and goes: each has its own first families', () => {
  const first = (i: number) =>
    (Object.keys(FAMILIES) as Family[])
      .filter((family) => family !== 'boiler')
      .toSorted((a, b) => FAMILIES[b].percent[i]! - FAMILIES[a].percent[i]!)
      .slice(0, 3);
  expect(first(0)).toEqual(['valve', 'setting', 'control']);
  expect(first(1)).toEqual(['wrongTerminal', 'setting', 'link']);
  expect(first(2)).toEqual(['setting', 'valve', 'joint']);
});
