import { describe, expect, it } from 'vitest';
import { rewireNetwork, settleMode, simulate } from '../../src/circuit/index.ts';
import { slipsOf } from '../../src/entries/slips.ts';
import { unnoticedIn } from '../../src/entries/unnoticed.ts';
import { shippedNetworks } from '../support/content.ts';

/** A shipped system of which an author expects no more than some outcomes in one mode. */
function expectingOnly(id: string, mode: string, expected: Readonly<Record<string, boolean>>) {
  const network = shippedNetworks().get(id)!;
  const modes = Object.fromEntries(
    Object.entries(network.system.modes).map(([name, one]) => [
      name,
      { ...one, expect: name === mode ? expected : {} },
    ]),
  );
  return simulate({ ...network, system: { ...network.system, modes } });
}

describe('slips of wiring that modes pass over', () => {
  const simulation = expectingOnly('heat-only-two-port', 'heating', { 'E1.burner': true });
  const told = unnoticedIn(simulation);
  const slips = new Map(slipsOf(simulation).map((slip) => [slip.words, slip]));

  it('are all either noticed, worth an expectation, or silent', () => {
    const worth = told.wanted.flatMap(({ notices }) => notices);
    expect(new Set(worth).size).toBe(worth.length);
    expect(told.noticed + worth.length + told.silent.length).toBe(told.tried);
    expect(worth.length).toBeGreaterThan(20);
  });

  it('would be noticed by what is proposed: the circuit then shows something else', () => {
    for (const { mode, conditions, outcome, so, notices } of told.wanted)
      for (const words of notices) {
        const network = rewireNetwork(simulation.network, slips.get(words)!.system);
        const set = Object.fromEntries(conditions.map((one) => [one, true]));
        const seen = (of: typeof network) =>
          mode === null
            ? settleMode(of, 'trial', set).outcomes.get(outcome)
            : simulate(of).modes.get(mode)!.outcomes.get(outcome);
        expect(seen(simulation.network), outcome).toBe(so);
        expect(seen(network), `${words}: ${outcome}`).not.toBe(so);
      }
  });

  // The orange of one valve on the grey of the other passes where both are tried together alone
  // (common practice, no source): heating alone finds it.
  it('ask for each call alone, where only both together are expected', () => {
    const both = unnoticedIn(
      expectingOnly('heat-only-two-port', 'both', { 'E1.burner': true, 'M1.running': true }),
    );
    expect(both.wanted.map(({ mode }) => mode)).toEqual(
      expect.arrayContaining([expect.stringMatching(/^(heating|hot-water|standby)$/)]),
    );
  });
});
