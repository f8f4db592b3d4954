import { describe, expect, it } from 'vitest';
import { changeNetwork, simulate } from '../../src/circuit/index.ts';
import { answerIn, deadAnswer, joinedOhms } from '../../src/diagnosis/tests/index.ts';
import { shipped } from '../support/signatures.ts';

describe('up to how many ohms two points count as joined', () => {
  const { simulation, signatures } = shipped('heat-only-two-port');
  const { network } = simulation;

  // BS 1362: a 3 A fuse carries 3 A. At 230 V that is 76.7 Ω: anything less blows it sooner or later.
  it('a winding of less than the spur’s fuse carries is a short', () => {
    expect(joinedOhms(network, 'M1.L', 'M1.N')).toBeCloseTo(230 / 3, 9);
    expect(joinedOhms(network, 'E1.pump N', 'E1.pump L')).toBeCloseTo(230 / 3, 9);
    expect(deadAnswer(40, joinedOhms(network, 'M1.L', 'M1.N'))).toBe('joined');
    // Three-speed pumps read 100 to 300 Ω (from memory): sound.
    expect(deadAnswer(100, joinedOhms(network, 'M1.L', 'M1.N'))).toBe('resistance');
  });

  it('anything else is joined by next to nothing alone', () => {
    for (const [from, to] of [
      ['M1.L', 'M1.E'],
      ['E1.L', 'E1.N'],
      ['E1.SL', 'E1.pump L'],
    ] as const)
      expect(joinedOhms(network, from, to)).toBe(2);
  });

  it('a pump half gone short is told from a sound one, its lead disconnected', () => {
    const test = signatures.tests.find(
      ({ kind, id }) => kind === 'act' && id.startsWith('part:M1.L|M1.N'),
    )!;
    const half = changeNetwork(network, [
      { kind: 'join', from: 'M1.L', to: 'M1.N', ohms: 30, inside: 'M1' },
    ]);
    expect(answerIn(simulation, test)).toBe('resistance');
    expect(answerIn(simulate(half), test)).toBe('joined');
  });
});
