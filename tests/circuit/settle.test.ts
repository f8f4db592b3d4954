import { describe, expect, it } from 'vitest';
import { potential, read, type Settled, settleMode, simulate } from '../../src/circuit/index.ts';
import { circuit } from '../support/notation.ts';

const MULTIMETER = { ohms: 10e6, farads: 0 };
const seen = ({ outcomes }: Settled) => Object.fromEntries(outcomes);
const onIn = (mode: string, text: string) => simulate(circuit(text)).modes.get(mode)!;

describe('windings', () => {
  // Operating and holding thresholds: common practice, no source; 0.8 and 0.2 of rated voltage.
  const coil = (share: number) =>
    settleMode(
      circuit(
        `F1 mains: supply L N E
         K1 coil: load L N { watts: 2, draws: coil }
         K1 pulled: when { energised: coil }
         K1 kept: when { held: coil }
         W1: flex 0.75 1; BN F1.L K1.L; BU F1.N K1.N`,
        { supplyVolts: 230 * share },
      ),
      'on',
      {},
    );

  it.each([
    [0.81, { 'K1.pulled': true, 'K1.kept': true }],
    [0.79, { 'K1.pulled': false, 'K1.kept': true }],
    [0.21, { 'K1.pulled': false, 'K1.kept': true }],
    [0.19, { 'K1.pulled': false, 'K1.kept': false }],
  ])('at %s of its rated voltage', (share, expected) => {
    expect(seen(coil(share))).toEqual(expected);
  });

  it('operate at the thresholds an entry gives instead', () => {
    const settled = settleMode(
      circuit(
        `F1 mains: supply L N E
         K1 coil: load L N { watts: 2, operates: 0.6, holds: 0.5 }
         K1 pulled: when { energised: coil }
         K1 kept: when { held: coil }
         W1: flex 0.75 1; BN F1.L K1.L; BU F1.N K1.N`,
        { supplyVolts: 0.55 * 230 },
      ),
      'on',
      {},
    );
    expect(seen(settled)).toEqual({ 'K1.pulled': false, 'K1.kept': true });
  });
});

describe('a relay that latches', () => {
  // Pulled in by the push, its own contact keeps the coil fed.
  it.each([
    ['idle', false],
    ['pushed', true],
    ['released', true],
    ['stopped', false],
    ['again', false],
  ])('by a contact on its own winding, %s: %s', (mode, lit) => {
    const settled = onIn(
      mode,
      `F1 mains: supply L N E
       K1 make: contact L A { closed: { any: [push, { held: coil }] } }
       K1 stop: contact A B { closed: { not: stop } }
       K1 coil: load B N { watts: 2, draws: coil }
       K1 lit: when { energised: coil }
       W1: flex 0.75 1; BN F1.L K1.L; BU F1.N K1.N
       mode idle:
       mode pushed: K1.push
       mode released after pushed:
       mode stopped after released: K1.stop
       mode again after stopped:`,
    );
    expect(settled.hunting).toEqual([]);
    expect(seen(settled)).toEqual({ 'K1.lit': lit });
  });

  // The same with the armature as a mechanism that keeps its position.
  const LATCH = `
    F1 mains: supply L N E
    K1 push: contact L A { closed: push }
    K1 own: contact L A { closed: { position: pulled } }
    K1 stop: contact A B { closed: { not: stop } }
    K1 coil: load B N { watts: 2, draws: coil }
    K1 rests let go; let go > pulled: { energised: coil }; pulled > let go: { not: { held: coil } }
    K1 lit: when { position: pulled }
    W1: flex 0.75 1; BN F1.L K1.L; BU F1.N K1.N
    mode idle:
    mode pushed: K1.push
    mode released after pushed:
    mode stopped after released: K1.stop
    mode again after stopped:`;

  it.each([
    ['idle', false],
    ['pushed', true],
    ['released', true],
    ['stopped', false],
    ['again', false],
  ])('by its position, %s: %s', (mode, lit) => {
    const settled = onIn(mode, LATCH);
    expect(settled.hunting).toEqual([]);
    expect(seen(settled)).toEqual({ 'K1.lit': lit });
  });

  it('stays in on a voltage that would not have pulled it in', () => {
    // A resistance in series leaves the coil half its voltage: enough to hold, not to operate.
    const text = (rest: string) => `
      F1 mains: supply L N E
      K1 full: contact L A { closed: full }
      K1 series: resistor L A { ohms: 26450 }
      K1 coil: load A N { watts: 2, draws: coil }
      K1 rests let go; let go > pulled: { energised: coil }; pulled > let go: { not: { held: coil } }
      K1 lit: when { position: pulled }
      W1: flex 0.75 1; BN F1.L K1.L; BU F1.N K1.N
      ${rest}`;
    expect(seen(onIn('weak', text('mode weak:')))).toEqual({ 'K1.lit': false });
    const kept = text('mode full: K1.full\nmode weak after full:');
    expect(seen(onIn('weak', kept))).toEqual({ 'K1.lit': true });
  });
});

describe('memory of positions', () => {
  const VALVE = `
    F1 mains: supply L N E
    Q1 motor: motor L N { watts: 6 }
    Q1 rests shut; shut > half: { energised: motor }; half > open: { energised: motor }
    Q1 open: when { position: open }
    F2 call: contact a b { closed: call }
    W1: flex 0.75 1; BN F1.L F2.a; BU F1.N Q1.N
    W2: flex 0.75 1; BN F2.b Q1.L
    mode rest:
    mode call: F2.call
    mode after-call after call:
    mode later after after-call:`;

  it('moves through its positions to the last within one mode', () => {
    expect(onIn('call', VALVE).state.positions.get('Q1')).toBe('open');
  });

  it('keeps its position from mode to mode, and starts from rest without one', () => {
    expect(onIn('later', VALVE).state.positions.get('Q1')).toBe('open');
    expect(onIn('rest', VALVE).state.positions.get('Q1')).toBe('shut');
  });

  it('says so when a mechanism has further to go than any real one', () => {
    const moves = Array.from({ length: 70 }, (_, i) => `p${i} > p${i + 1}: true`).join('; ');
    const network = circuit(`
      A1 load: load L N { watts: 1 }
      A1 rests p0; ${moves}
      mode on:`);
    expect(() => simulate(network)).toThrow(
      'test-circuit has not come to rest nor repeated itself after 64 rounds',
    );
  });
});

describe('a circuit that hunts', () => {
  const BUZZER = `
    F1 mains: supply L N E
    K1 own: contact L A { closed: { not: { energised: coil } } }
    K1 coil: load A N { watts: 2, draws: coil }
    K1 lamp: load L N { watts: 5, draws: lamp }
    K1 pulled: when { energised: coil }
    K1 lit: when { energised: lamp }
    K1 dark: when { not: { energised: lamp } }
    A1 other: load L N { watts: 5 }
    A1 runs: when { energised: other }
    W1: flex 0.75 1; BN F1.L K1.L; BU F1.N K1.N
    W2: flex 0.75 1; BN K1.L A1.L; BU K1.N A1.N
    mode on:`;

  it('is reported with the item that does not rest, and its outcome as hunting', () => {
    const settled = onIn('on', BUZZER);
    expect(settled.hunting).toEqual(['K1']);
    expect(settled.round).toHaveLength(2);
    expect(settled.outcomes.get('K1.pulled')).toBe('hunting');
  });

  it('leaves what is steady steady, in the same item and elsewhere', () => {
    const { outcomes } = onIn('on', BUZZER);
    expect(outcomes.get('K1.lit')).toBe(true);
    expect(outcomes.get('K1.dark')).toBe(false);
    expect(outcomes.get('A1.runs')).toBe(true);
  });

  it('names both of two relays that break each other', () => {
    // Each is fed through the other's break contact, and both pull in and let go together.
    const settled = onIn(
      'on',
      `F1 mains: supply L N E
       K1 break: contact L out { closed: { not: { energised: coil } } }
       K1 coil: load A N { watts: 2 }
       K2 break: contact L out { closed: { not: { energised: coil } } }
       K2 coil: load A N { watts: 2 }
       W1: flex 0.75 1; BN F1.L K1.L; BU F1.N K1.N
       W2: flex 0.75 1; BN K1.L K2.L; BU K1.N K2.N
       W3: flex 0.75 1; BN K1.out K2.A; BU K2.out K1.A
       mode on:`,
    );
    expect(settled.hunting).toEqual(['K1', 'K2']);
  });
});

describe('a source inside a device', () => {
  const loop = (supply: string) => `
    F1 mains: supply L N E
    F1 switch: contact L out { closed: ${supply} }
    E1 board: load L N { watts: 8 }
    E1 pair: source plus minus { volts: 24, ohms: 100, poweredBy: board }
    E1 load: resistor plus minus { ohms: 1e6 }
    W1: flex 0.75 1; BN F1.out E1.L; BU F1.N E1.N
    mode on:`;
  const across = (settled: Settled) => read(settled.solution, 'E1.plus', 'E1.minus', MULTIMETER).dc;

  it('gives its voltage while what powers it is energised', () => {
    expect(across(onIn('on', loop('true')))).toBeCloseTo((24 * 1e6) / (1e6 + 100), 2);
  });

  it('gives nothing when it is not', () => {
    const settled = onIn('on', loop('false'));
    expect(across(settled)).toBe(0);
    expect(settled.solution.dc.potentials()).toBeNull();
    expect(potential(settled.solution.dc, 0)).toEqual({ re: 0, im: 0 });
  });
});
