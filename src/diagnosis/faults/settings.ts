import type { Cause } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { circuitEdit, madeBy } from './edit.ts';
import type { FaultKind } from './families.ts';
import type { Draft, Repair } from './fault.ts';
import { setRight } from './repairs.ts';
import { capital, itemWords } from './words.ts';

const CAUSES: Readonly<
  Record<Cause, { kind: FaultKind; title: (item: string) => string; key: string; act: string }>
> = {
  'flat cells': {
    kind: 'flatCells',
    title: (item) => `${item}: batteries flat`,
    key: 'battery',
    act: 'Fit fresh batteries, all at once, no rechargeables; then look whether it has kept its pairing.',
  },
  'lost pairing': {
    kind: 'lostPairing',
    title: (item) => `${item}: pairing lost, or out of reach of its wireless stat`,
    key: 'pair',
    act: 'Note the channel, bring the two close together, pair them again, and try from where the stat stands.',
  },
  'latched lever': {
    kind: 'latchedLever',
    title: (item) => `${item}: lever left latched on manual`,
    key: 'lever',
    act: 'Put the lever of the valve head back to automatic.',
  },
};

/**
 * Causes that nothing is opened for: a setting that never calls or never stops, flat cells, a
 * lost pairing, a lever left latched. Each holds its condition whatever a mode sets.
 */
export function settingFaults(network: Network): Draft[] {
  return [...network.items].flatMap(([item, { device }]) => {
    const name = capital(itemWords(network, item));
    return Object.entries(device.conditions).flatMap(
      ([condition, { usual, cause, wants }]): Draft[] => {
        const held = (value: boolean, kind: FaultKind, title: string, repair: Repair): Draft => ({
          id: `${item}:${condition} ${value ? 'on' : 'off'}`,
          origin: 'setting',
          title,
          hazard: null,
          class: kind,
          ...repair,
          ...madeBy(
            network,
            circuitEdit([{ kind: 'set', condition: `${item}.${condition}`, value }]),
          ),
        });
        if (cause) {
          const { kind, title, key, act } = CAUSES[cause];
          return [held(!usual, kind, title(name), setRight(`${key} ${item}`, act))];
        }
        if (!wants || !['control', 'receiver', 'sensor'].includes(device.family)) return [];
        const byHand = wants === 'heating by hand' || wants === 'frost protection';
        return [
          byHand
            ? held(
                true,
                'setting',
                `${name}: left on, ${wants}`,
                setRight(`set ${item}`, `Take ${wants} off at the ${itemWords(network, item)}.`),
              )
            : held(
                false,
                'setting',
                `${name}: set so that it does not call for ${wants}`,
                setRight(
                  `set ${item}`,
                  `Set the ${itemWords(network, item)}: clock, programme, holiday, on or off, and temperature; show the customer.`,
                ),
              ),
        ];
      },
    );
  });
}
