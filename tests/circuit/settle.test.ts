import { describe, expect, it } from 'vitest';
import {
  effectiveVolts,
  potential,
  read,
  type Settled,
  settleMode,
  simulate,
} from '../../src/circuit/index.ts';
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

  // The voltage the coil stands at is computed first; a threshold at just that share of its
  // rated voltage is met, the next larger double is not.
  it.each(['operates', 'holds'])('%s at its threshold itself', (threshold) => {
    const coilAt = (share: number) =>
      settleMode(
        circuit(`
          F1 mains: supply L N E
          K1 series: resistor L A { ohms: 26450 }
          K1 coil: load A N { watts: 2, ${threshold}: ${share} }
          K1 operates: when { energised: coil }
          K1 holds: when { held: coil }
          W1: flex 0.75 1; BN F1.L K1.L; BU F1.N K1.N`),
        'on',
        {},
      );
    const { solution } = coilAt(0.5);
    const coil = solution.network.branchIndex.get('K1/coil')!;
    const share = effectiveVolts(solution, coil) / 230;
    const met = (at: number) => coilAt(at).outcomes.get(`K1.${threshold}`);
    expect(share).toBeCloseTo(0.5, 3);
    expect([met(share), met(share + 2 ** -53)]).toEqual([true, false]);
  });

  it.each([
    ['load', '{ watts: 2 }'],
    ['motor', '{ watts: 6 }'],
    ['sensing', '{ ohms: 1e6 }'],
  ])('of a %s operate alike', (kind, rated) => {
    const settled = (switched: boolean) =>
      settleMode(
        circuit(`
          F1 mains: supply L N E
          F1 switch: contact L out { closed: on }
          K1 input: ${kind} L N ${rated}
          K1 seen: when { energised: input }
          K1 kept: when { held: input }
          W1: flex 0.75 1; BN F1.out K1.L; BU F1.N K1.N`),
        'on',
        { 'F1.on': switched },
      );
    expect(seen(settled(true))).toEqual({ 'K1.seen': true, 'K1.kept': true });
    expect(seen(settled(false))).toEqual({ 'K1.seen': false, 'K1.kept': false });
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
    const endAfter = (count: number) => {
      const moves = Array.from({ length: count }, (_, i) => `p${i} > p${i + 1}: true`).join('; ');
      const network = circuit(`
        A1 load: load L N { watts: 1 }
        A1 rests p0; ${moves}
        mode on:`);
      return simulate(network).modes.get('on')!.state.positions.get('A1');
    };
    // One round a move, and one in which nothing moves any more.
    expect(endAfter(63)).toBe('p63');
    expect(() => endAfter(64)).toThrow(
      'test-circuit has not come to rest nor repeated itself after 64 rounds',
    );
  });
});

// A contact makes in milliseconds and a valve takes seconds (common practice, no source): what
// a relay's pull-in gives or takes for an instant moves no mechanism.
describe('a mechanism waits until the electrics are at rest', () => {
  const moved = (mode: string, text: string) => onIn(mode, text).state.positions.get('Q1');

  it.each([
    ['energised', 'energised', 230],
    ['held at half its voltage', 'held', 115],
  ])('when its motor is %s for the instant before a relay parts its feed', (_, rule, volts) => {
    const network = circuit(
      `F1 mains: supply L N E
       K1 coil: load L N { watts: 2, operates: 0.4 }
       K1 break: contact L out { closed: { not: { energised: coil } } }
       Q1 motor: motor L N { watts: 6 }
       Q1 rests shut; shut > open: { ${rule}: motor }
       W1: flex 0.75 1; BN F1.L K1.L; BU F1.N K1.N
       W2: flex 0.75 1; BN K1.out Q1.L; BU K1.N Q1.N
       mode on:`,
      { supplyVolts: volts },
    );
    const settled = simulate(network).modes.get('on')!;
    expect(settled.hunting).toEqual([]);
    expect(settled.state.positions.get('Q1')).toBe('shut');
  });

  it('when only its voltage rises for an instant, enough to hold before and after', () => {
    // K1 gives motor and K2 full voltage; K2, held before, pulls in and takes the motor's away.
    const text = `
      F1 mains: supply L N E
      K1 coil: load L N { watts: 2 }
      K1 make: contact L full { closed: { energised: coil } }
      K2 weak: resistor L A { ohms: 26450 }
      K2 strong: resistor full A { ohms: 1 }
      K2 coil: load A N { watts: 2 }
      K2 break: contact full out { closed: { not: { energised: coil } } }
      Q1 weak: resistor L A { ohms: 8816 }
      Q1 strong: resistor full A { ohms: 1 }
      Q1 motor: motor A N { watts: 6, powerFactor: 1 }
      Q1 rests shut; shut > open: { energised: motor }
      W1: flex 0.75 1; BN F1.L K1.L; BU F1.N K1.N
      W2: flex 0.75 1; BN K1.L K2.L; BU K1.N K2.N; GY K1.full K2.full
      W3: flex 0.75 1; BN K2.L Q1.L; BU K2.N Q1.N; GY K2.out Q1.full
      mode on:`;
    const settled = onIn('on', text);
    expect([...settled.state.energised]).toEqual(['K1/coil', 'K2/coil']);
    expect(settled.state.held.has('Q1/motor')).toBe(true);
    expect(moved('on', text)).toBe('shut');
  });

  // Once shut by its spring it stays so: where it has moved, it is seen.
  const SPRING_RETURN = `
    F1 mains: supply L N E
    F1 first: contact L out { closed: call }
    K1 coil: load A N { watts: 2 }
    K1 in: contact L A { closed: change }
    K1 break: contact L out { closed: { not: { energised: coil } } }
    Q1 motor: motor L N { watts: 6 }
    Q1 rests shut; shut > open: { energised: motor }; open > sprung: { not: { held: motor } }
    W1: flex 0.75 1; BN F1.out K1.L; BU F1.N K1.N
    mode open: F1.call
    mode changed after open: F1.call, K1.change`;

  it('when one relay parts its feed before the next gives it another', () => {
    // In the same instant the motor drops out and K2 pulls in: as many as before, not the same.
    const text = `${SPRING_RETURN}
      K1 make: contact L on { closed: { energised: coil } }
      K2 coil: load on N { watts: 2 }
      K2 make: contact L out { closed: { energised: coil } }
      W2: flex 0.75 1; BN K1.L K2.L; BU K1.N K2.N; GY K1.on K2.on
      W3: flex 0.75 1; BN K1.out Q1.L; BU K1.N Q1.N
      W4: flex 0.75 1; BN K2.out Q1.L`;
    expect([...onIn('changed', text).state.energised]).toEqual(['K1/coil', 'Q1/motor', 'K2/coil']);
    expect(moved('changed', text)).toBe('open');
  });

  it('when a relay that drops out with it gives it back its feed', () => {
    const text = `${SPRING_RETURN}
      K1 other: contact L on { closed: { not: { energised: coil } } }
      K2 coil: load on N { watts: 2 }
      K2 break: contact L out { closed: { not: { energised: coil } } }
      W2: flex 0.75 1; BN K1.L K2.L; BU K1.N K2.N; GY K1.on K2.on
      W3: flex 0.75 1; BN K1.out Q1.L; BU K1.N Q1.N
      W4: flex 0.75 1; BN K2.out Q1.L`;
    expect([...onIn('open', text).state.energised]).toEqual(['Q1/motor', 'K2/coil']);
    expect([...onIn('changed', text).state.energised]).toEqual(['K1/coil', 'Q1/motor']);
    expect(moved('changed', text)).toBe('open');
  });

  it('when its fuse opens in that instant', () => {
    const text = `
      F1 mains: supply L N E
      F1 fuse: fuse L out { rating: 3 }
      F1 earthed: resistor short E { ohms: 20 }
      F1 chafed: contact out short { closed: chafed }
      Q1 motor: motor L N { watts: 6 }
      Q1 rests shut; shut > open: { all: [go, { energised: motor }] }
      W1: flex 0.75 1; BN F1.out Q1.L; BU F1.N Q1.N
      mode standby:
      mode go after standby: Q1.go
      mode fault after standby: Q1.go, F1.chafed`;
    expect(moved('go', text)).toBe('open');
    expect([...onIn('fault', text).state.blown]).toEqual(['F1/fuse']);
    expect(moved('fault', text)).toBe('shut');
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
