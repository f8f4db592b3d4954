import { describe, expect, it } from 'vitest';
import {
  alter,
  type Change,
  read,
  resistanceBetween,
  type Settled,
  settleMode,
  simulate,
} from '../../src/circuit/index.ts';
import { circuit } from '../support/notation.ts';

const METER = { ohms: 10e6, farads: 0 };

// A motor valve behind a plate's contact, its end switch calling a boiler's input.
const ZONE = circuit(`
  F1 mains: supply L N E
  F1 fuse: fuse L out { rating: 3 }
  B1 contact: contact COM NO { closed: calling }
  B1 comes off: fitted
  Q1 motor: motor L N { watts: 6 }
  Q1 end: contact feed call { closed: { position: open } }
  Q1 rests shut; shut > open: { energised: motor }; open > shut: { not: { held: motor } }
  E1 call: load SL N { watts: 2 }
  E1 fires: when { energised: call }
  Q1 comes off: fitted
  E1 comes off: fitted
  W1: flex 0.75 8; BN F1.out B1.COM; GY B1.NO F1.switched
  W2: flex 0.75 5; BN F1.switched Q1.L; BU F1.N Q1.N; GY F1.out Q1.feed; OG F1.SL Q1.call
  W3: flex 0.75 2; BN F1.SL E1.SL; BU F1.N E1.N
  mode off:
  mode on: B1.calling`);

const on = simulate(ZONE).modes.get('on')!;
const volts = ({ solution }: Settled, from: string, to = 'F1.N') =>
  read(solution, from, to, METER).ac;
const altered = (...changes: Change[]) => alter(on, changes);

describe('something done to a circuit that stands settled', () => {
  it('leaves it as it is where nothing is done', () => {
    const same = altered();
    expect(same.state).toEqual(on.state);
    expect(same.outcomes.get('E1.fires')).toBe(true);
    expect(same.mode).toBe('on');
  });

  it('lets go what it cuts off, from where it stood', () => {
    const parted = altered({ kind: 'parted', end: 'W2.BN@2' });
    expect(parted.state.positions.get('Q1')).toBe('shut');
    expect(parted.outcomes.get('E1.fires')).toBe(false);
    // The live core hangs loose; the motor's terminal is dead.
    expect(volts(parted, 'W2.BN@2')).toBeGreaterThan(200);
    expect(volts(parted, 'Q1.L')).toBeLessThan(1);
  });

  it('keeps a position that nothing moves', () => {
    const parted = altered({ kind: 'parted', end: 'W2.OG@1' });
    expect(parted.state.positions.get('Q1')).toBe('open');
    expect(volts(parted, 'Q1.call')).toBeGreaterThan(200);
    expect(volts(parted, 'E1.SL')).toBeLessThan(1);
  });

  it('sets other conditions in the same moment', () => {
    const off = alter(on, [], { 'B1.calling': false });
    expect(off.outcomes.get('E1.fires')).toBe(false);
    expect(off.state.conditions.get('B1.calling')).toBe(false);
    expect(on.state.conditions.get('B1.calling')).toBe(true);
    expect(() => alter(on, [], { 'B1.cold': true })).toThrow('no condition B1.cold');
  });

  it('starts from where things stand, not from rest', () => {
    const latched = circuit(`
      F1 mains: supply L N E
      K1 make: contact L A { closed: { any: [push, { held: coil }] } }
      K1 coil: load A N { watts: 2 }
      K1 in: when { energised: coil }
      W1: flex 0.75 1; BN F1.L K1.L; BU F1.N K1.N; spare GY
      mode pushed: K1.push`);
    const pushed = simulate(latched).modes.get('pushed')!;
    const released = alter(pushed, [], { 'K1.push': false });
    expect(released.outcomes.get('K1.in')).toBe(true);
    expect(settleMode(latched, 'x', {}).outcomes.get('K1.in')).toBe(false);
  });
});

describe('a device taken off its base', () => {
  const without = (settled: Settled, item: string, changes: Change[] = []) =>
    alter(settled, changes, { [`${item}.fitted`]: false });

  it('leaves bare points: the feed is live, what it fed is dead', () => {
    const out = without(on, 'B1');
    expect(out.outcomes.get('E1.fires')).toBe(false);
    expect(volts(out, 'B1.COM')).toBeGreaterThan(200);
    const { network, parts } = out.solution;
    expect(parts[network.branchIndex.get('B1/contact')!]!.ohms).toBe(1e9);
    expect(parts[network.branchIndex.get('F1/fuse')!]!.ohms).toBe(0.05);
  });

  it('takes its short circuit and its welded contact with it, and leaves a bridge', () => {
    const short: Change = { kind: 'join', from: 'Q1.L', to: 'Q1.N', ohms: 0.5, inside: 'Q1' };
    const ohms = (change: Change, item = 'Q1') => {
      const { solution } = without(settleMode(ZONE, 'off', {}), item, [change]);
      const [from, to] = item === 'Q1' ? ['Q1.L', 'Q1.N'] : ['B1.COM', 'B1.NO'];
      return resistanceBetween(solution, from!, to!);
    };
    const { solution } = alter(settleMode(ZONE, 'off', {}), [short]);
    expect(resistanceBetween(solution, 'Q1.L', 'Q1.N')).toBeCloseTo(0.5, 2);
    expect(ohms(short)).toBeGreaterThan(1e8);
    expect(ohms({ ...short, inside: 'E1' })).toBeCloseTo(0.5, 2);
    // Round by the supply and the motor there are kilohms; through the contact nothing.
    expect(ohms({ kind: 'welded', branch: 'B1/contact' }, 'B1')).toBeGreaterThan(1000);
    expect(ohms({ kind: 'closed', branch: 'B1/contact' }, 'B1')).toBeCloseTo(0.05, 2);
  });

  it('is no longer energised', () => {
    const out = without(on, 'E1');
    expect(out.outcomes.get('E1.fires')).toBe(false);
    expect([...out.state.energised]).toEqual(['Q1/motor']);
    expect([...out.state.held]).toEqual(['Q1/motor']);
  });
});

describe('a core parted', () => {
  it('both its ends, one after the other, with what is broken kept so', () => {
    const open: Change = { kind: 'open', branch: 'W2.GY' };
    const both = altered(
      open,
      { kind: 'parted', end: 'W2.BN@1' },
      { kind: 'parted', end: 'W2.BN@2' },
    );
    const { network } = both.solution;
    expect(resistanceBetween(both.solution, 'W2.BN@1', 'W2.BN@2')).toBeLessThan(1);
    expect(resistanceBetween(both.solution, 'W2.BN@1', 'F1.switched')).toBeGreaterThan(1e8);
    expect(network.branches[network.branchIndex.get('W2.GY')!]).toMatchObject({
      kind: 'faulty',
      ohms: 1e9,
    });
  });

  it('leaves a stuck mechanism stuck', () => {
    const stuck: Change = { kind: 'stuck', item: 'Q1', position: 'open' };
    const parted = altered(stuck, { kind: 'parted', end: 'W2.BN@2' });
    expect(parted.state.positions.get('Q1')).toBe('open');
    expect(parted.outcomes.get('E1.fires')).toBe(true);
  });

  it.each(['W9.BN@1', 'W2.BN', 'W2.BK@1', 'W2.BN@3'])('%s is no end in a terminal', (end) => {
    expect(() => altered({ kind: 'parted', end })).toThrow(
      `test-circuit has no core end ${end} in a terminal`,
    );
  });
});

describe('a core broken beside one that is parted', () => {
  it('stays broken, and the cable has each core once', () => {
    const broken: Change = { kind: 'open', branch: 'W2.GY' };
    expect(volts(altered(broken), 'Q1.feed')).toBeLessThan(200);
    const both = altered(broken, { kind: 'parted', end: 'W2.BN@2' });
    expect(volts(both, 'Q1.feed')).toBeLessThan(200);
    const { branches } = both.solution.network;
    expect(branches.filter(({ id }) => id === 'W2.GY')).toHaveLength(1);
  });
});
