import { describe, expect, it } from 'vitest';
import {
  buildNetwork,
  type Change,
  changeNetwork,
  magnitude,
  partsOf,
  read,
  resistanceBetween,
  settleMode,
  simulate,
} from '../../src/circuit/index.ts';
import { BranchIndex } from '../../src/circuit/network.ts';
import { circuit } from '../support/notation.ts';

const BOARD = circuit(`
  F1 mains: supply L N E
  F1 switch: contact L out { closed: on }
  F1 fuse: fuse out fused { rating: 3 }
  Q1 motor: motor L N { watts: 6, powerFactor: 0.6 }
  Q1 end: contact L E { closed: { position: open } }
  Q1 rests shut; shut > open: { energised: motor }; open > shut: { not: { held: motor } }
  Q1 open: when { position: open }
  W1: flex 0.75 10; BN F1.fused Q1.L; BU F1.N Q1.N; spare GY
  link F1.out F1.test
  mode off:
  mode on: F1.on`);

const changed = (...changes: Change[]) => changeNetwork(BOARD, changes);
const open = (network: ReturnType<typeof changed>) =>
  simulate(network).modes.get('on')!.outcomes.get('Q1.open');
const ohmsOf = (network: ReturnType<typeof changed>, id: string) => {
  const { state } = settleMode(network, 'off', {});
  return partsOf(network.branches[network.branchIndex.get(id)!]!, state, 50).ohms;
};

describe('the index of branches', () => {
  it('gives each its place, however often it is asked, and of what is not there none', () => {
    const { branches } = BOARD;
    const fresh = () => new BranchIndex(branches);
    for (const [at, { id }] of branches.entries()) expect(fresh().get(id)).toBe(at);
    expect(fresh().get('no such branch')).toBeUndefined();
    const asked = fresh();
    for (const [at, { id }] of branches.entries()) expect(asked.get(id)).toBe(at);
    expect(asked.get('no such branch')).toBeUndefined();
  });

  it('looks for the first three asked, and makes an index of all for those that ask on', () => {
    let read = 0;
    const branches = ['a', 'b', 'c', 'd', 'e'].map((id) => ({
      ...BOARD.branches[0]!,
      get id() {
        read++;
        return id;
      },
    }));
    const index = new BranchIndex(branches);
    const readAfter = Array.from({ length: 6 }, () => {
      expect(index.get('e')).toBe(4);
      return read;
    });
    // One each from the end, then all five once, then none.
    expect(readAfter).toEqual([1, 2, 3, 8, 8, 8]);
  });

  it('gives the last of two that share a name', () => {
    const twice = new BranchIndex([...BOARD.branches, BOARD.branches[0]!]);
    for (let asked = 0; asked < 5; asked++)
      expect(twice.get(BOARD.branches[0]!.id)).toBe(BOARD.branches.length);
  });
});

describe('a circuit with one change', () => {
  it('runs as its entry says without one', () => {
    expect(open(changed())).toBe(true);
    expect(changed()).toBe(BOARD);
  });

  it.each(['F1/fuse', 'W1.BU', 'Q1/motor'])('has %s come apart: nothing moves', (branch) => {
    const network = changed({ kind: 'open', branch });
    expect(open(network)).toBe(false);
    // An open part leaves what leaks over a gap: a gigaohm, common practice, no source.
    expect(ohmsOf(network, branch)).toBe(1e9);
    const was = BOARD.branches[BOARD.branchIndex.get(branch)!]!;
    expect(network.branches[network.branchIndex.get(branch)!]).toMatchObject({
      kind: 'faulty',
      id: branch,
      from: was.from,
      to: was.to,
      was,
    });
  });

  it('has a switch bridged: the motor runs with the switch off', () => {
    const network = changed({ kind: 'closed', branch: 'F1/switch' });
    const off = settleMode(network, 'off', {});
    expect(off.outcomes.get('Q1.open')).toBe(true);
    expect(ohmsOf(network, 'F1/switch')).toBe(0.05);
    expect(ohmsOf(changed({ kind: 'closed', branch: 'link 1' }), 'link 1')).toBe(0.05);
  });

  it('has a path that should not be there, which leads current', () => {
    const network = changed({ kind: 'join', from: 'F1.L', to: 'Q1.L', ohms: 1000 });
    const { solution, outcomes } = settleMode(network, 'off', {});
    expect(outcomes.get('Q1.open')).toBe(true);
    const index = network.branchIndex.get('F1.L~Q1.L')!;
    expect(network.branches[index]).toEqual({
      kind: 'strange path',
      id: 'F1.L~Q1.L',
      from: network.nodeIndex.get('F1.L'),
      to: network.nodeIndex.get('Q1.L'),
      ohms: 1000,
    });
    // 230 V behind the loop, over 1 kΩ and the motor of 6 W at 0.6: 5290 Ω at its angle.
    const { ac } = read(solution, 'Q1.L', 'Q1.N', { ohms: 10e6, farads: 0 });
    const motor = (230 ** 2 * 0.6) / 6;
    const along = Math.hypot(1000 + motor * 0.6, motor * 0.8);
    expect(ac).toBeCloseTo((230 * motor) / along, 0);
  });

  it('has a mechanism that stays where it is, in every mode', () => {
    expect(open(changed({ kind: 'stuck', item: 'Q1', position: 'shut' }))).toBe(false);
    const stuckOpen = changed({ kind: 'stuck', item: 'Q1', position: 'open' });
    expect(simulate(stuckOpen).modes.get('off')!.outcomes.get('Q1.open')).toBe(true);
    expect(stuckOpen.stuck).toEqual(new Map([['Q1', 'open']]));
  });

  it('stays stuck where another is stuck after it', () => {
    const network = changed(
      { kind: 'stuck', item: 'Q1', position: 'open' },
      { kind: 'rated', branch: 'F1/fuse', rating: 13 },
    );
    expect(network.stuck.get('Q1')).toBe('open');
    expect(network.branches[network.branchIndex.get('F1/fuse')!]).toMatchObject({
      element: { kind: 'fuse', rating: 13 },
    });
  });

  it('has a fuse of another rating, which lets more through', () => {
    const fault: Change = { kind: 'join', from: 'F1.fused', to: 'F1.N', ohms: 20 };
    // 11.3 A: above the 5.7 A that a 3 A fuse link breaks, below the 24.7 A of a 13 A one (BS 1362).
    const blown = (network: ReturnType<typeof changed>) => [
      ...simulate(network).modes.get('on')!.state.blown,
    ];
    expect(blown(changed(fault))).toEqual(['F1/fuse']);
    expect(blown(changed(fault, { kind: 'rated', branch: 'F1/fuse', rating: 13 }))).toEqual([]);
  });

  it('leaves the entry’s circuit as it was', () => {
    const before = BOARD.branches.length;
    changed({ kind: 'join', from: 'F1.L', to: 'Q1.L', ohms: 1 }, { kind: 'open', branch: 'W1.BN' });
    expect(BOARD.branches).toHaveLength(before);
    expect(open(BOARD)).toBe(true);
  });
});

describe('a welded contact', () => {
  const plugIn = (presence: boolean) => {
    const network = circuit(`
      B1 contact: contact COM NO { closed: { all: [calling, fitted] } }
      mode on: B1.fitted`);
    const item = network.items.get('B1')!;
    const conditions = {
      ...item.device.conditions,
      fitted: { ...item.device.conditions.fitted!, ...(presence ? { presence: true } : {}) },
    };
    const devices = new Map([...network.items.values()].map((i) => [i.deviceId, i.device]));
    devices.set(item.deviceId, { ...item.device, conditions });
    const built = buildNetwork(network.id, network.system, devices);
    return changeNetwork(built, [{ kind: 'welded', branch: 'B1/contact' }]);
  };
  const ohms = (network: ReturnType<typeof plugIn>, fitted: boolean) => {
    const { state } = settleMode(network, 'on', { 'B1.fitted': fitted });
    return partsOf(network.branches[network.branchIndex.get('B1/contact')!]!, state, 50).ohms;
  };

  it('is closed while its device is in its base, and open when that is taken off', () => {
    expect([ohms(plugIn(true), true), ohms(plugIn(true), false)]).toEqual([0.05, 1e9]);
  });

  it('is closed for good where its device cannot be taken off', () => {
    expect([ohms(plugIn(false), true), ohms(plugIn(false), false)]).toEqual([0.05, 0.05]);
  });
});

describe('what is said of a change that does not fit', () => {
  it.each<[Change, string]>([
    [{ kind: 'open', branch: 'W9.BN' }, 'test-circuit has no branch W9.BN'],
    [
      { kind: 'open', branch: 'F1/supply line' },
      'test-circuit: F1/supply line does not fail; an element, core or link of the system does',
    ],
    [{ kind: 'welded', branch: 'F1/fuse' }, 'test-circuit: F1/fuse does not weld; a contact does'],
    [{ kind: 'welded', branch: 'W1.BN' }, 'test-circuit: W1.BN does not weld; a contact does'],
    [
      { kind: 'stuck', item: 'Q1', position: 'half' },
      'test-circuit: Q1 has no position half; it has shut, open',
    ],
    [
      { kind: 'stuck', item: 'F1', position: 'open' },
      'test-circuit: F1 has no position open; it has none',
    ],
    [
      { kind: 'stuck', item: 'X1', position: 'open' },
      'test-circuit: X1 has no position open; it has none',
    ],
    [
      { kind: 'rated', branch: 'Q1/motor', rating: 3 },
      'test-circuit: Q1/motor has no rating; a fuse or breaker has',
    ],
    [
      { kind: 'rated', branch: 'W1.BN', rating: 3 },
      'test-circuit: W1.BN has no rating; a fuse or breaker has',
    ],
    [
      { kind: 'join', from: 'F1.L', to: 'Q1.X', ohms: 1 },
      'test-circuit has no point Q1.X; Q1 has Q1.L, Q1.N, Q1.E',
    ],
  ])('%o', (change, said) => {
    expect(() => changed(change)).toThrow(new RangeError(said));
  });
});

describe('a dead test', () => {
  it('shows the direct resistance of the way between two points', () => {
    const { solution } = settleMode(BOARD, 'off', {});
    // 10 m of 0.75 mm² flexible copper: 26 Ω/km (IEC 60228 class 5).
    expect(resistanceBetween(solution, 'F1.fused', 'Q1.L')).toBeCloseTo(0.26, 6);
    expect(resistanceBetween(solution, 'Q1.L', 'F1.fused')).toBeCloseTo(0.26, 6);
    // The motor's winding beside nothing else: its power at its power factor, in ohms.
    expect(resistanceBetween(solution, 'Q1.L', 'Q1.N')).toBeCloseTo(
      ((230 ** 2 * 0.6) / 6) * 0.6,
      0,
    );
    // Across an open switch the only way is round by the load: winding, both cores, supply, fuse.
    const around = ((230 ** 2 * 0.6) / 6) * 0.6 + 2 * 0.26 + 0.35 + 0.05;
    expect(resistanceBetween(solution, 'F1.L', 'F1.out')).toBeCloseTo(around, 1);
  });
});

describe('an instrument', () => {
  const cell = settleMode(
    circuit(`
      E1 pair: source plus minus { volts: 24, ohms: 3000 }
      E1 earth: link minus E
      E1 mains: supply L N E`),
    'on',
    {},
  );

  it.each([
    [3e3, 12],
    [9e3, 18],
    [10e6, 24],
  ])('of %s Ω loads a weak direct source to %s V', (ohms, volts) => {
    // 24 V behind 3 kΩ: V = 24·R/(R + 3 kΩ).
    const shown = read(cell.solution, 'E1.plus', 'E1.minus', { ohms, farads: 0 });
    expect(shown.dc).toBeCloseTo(volts, 1);
    expect(shown).toMatchObject({ class: 'dead' });
    expect(magnitude({ re: shown.ac, im: 0 })).toBeLessThan(1e-6);
  });
});
