import { expect, test } from 'vitest';
import { changeNetwork, simulate } from '../../../src/circuit/index.ts';
import { faultsOf } from '../../../src/diagnosis/faults/index.ts';
import { shippedNetworks } from '../../support/content.ts';
import { loadSystem } from '../../systems/load.ts';

const welded = (id: string) => {
  const network = loadSystem(id);
  const fault = faultsOf(simulate(network)).find((one) => one.id === 'B1/contact:welded')!;
  return simulate(fault.circuit());
};

test.each(['combi-two-wire', 'combi-volt-free', 'combi-condensate-pump'])(
  '%s: a welded contact fires the boiler on its plate, and cannot once the control is off it',
  (id) => {
    const { modes } = welded(id);
    expect(modes.get('standby')!.outcomes.get('E1.burner')).toBe(true);
    expect(modes.get('flat-battery')?.outcomes.get('E1.burner') ?? true).toBe(true);
    expect(modes.get('control-off')!.outcomes.get('E1.burner')).toBe(false);
  },
);

test('a bridge across the plate does not care where the control is', () => {
  const network = loadSystem('combi-two-wire');
  const { modes } = simulate(changeNetwork(network, [{ kind: 'closed', branch: 'B1/contact' }]));
  expect(modes.get('control-off')!.outcomes.get('E1.burner')).toBe(true);
});

test('only a contact welds', () => {
  const network = loadSystem('combi-two-wire');
  const weld = (branch: string) => () => changeNetwork(network, [{ kind: 'welded', branch }]);
  expect(weld('Q1/fuse')).toThrow('combi-two-wire: Q1/fuse does not weld; a contact does');
  expect(weld('W3.BN')).toThrow('combi-two-wire: W3.BN does not weld; a contact does');
});

test.each([...shippedNetworks().keys()])(
  '%s: a contact of anything that stays in its place is closed for good',
  (id) => {
    const network = shippedNetworks().get(id)!;
    const faults = faultsOf(simulate(network)).filter((one) => one.id.endsWith(':welded'));
    expect(faults.length).toBeGreaterThan(0);
    for (const fault of faults) {
      const branch = fault.id.slice(0, -':welded'.length);
      const item = network.items.get(branch.split('/')[0]!)!;
      if (Object.values(item.device.conditions).some(({ presence }) => presence)) continue;
      const bridged = simulate(changeNetwork(network, [{ kind: 'closed', branch }]));
      for (const [mode, { outcomes }] of simulate(fault.circuit()).modes)
        expect([fault.id, mode, [...outcomes]]).toEqual([
          fault.id,
          mode,
          [...bridged.modes.get(mode)!.outcomes],
        ]);
    }
  },
);
