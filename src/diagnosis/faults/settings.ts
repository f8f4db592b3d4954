import type { Cause, Device } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { itemWords } from '../../wiring/index.ts';
import { capital } from '../../words/index.ts';
import { circuitEdit, madeBy } from './edit.ts';
import type { FaultKind } from './families.ts';
import type { Draft, Repair } from './fault.ts';
import { setRight } from './repairs.ts';

const CAUSES: Readonly<
  Record<
    Cause,
    {
      kind: FaultKind;
      title: (item: string) => string;
      key: string;
      act: string;
      /** The same where it talks by radio: only that has a pairing to keep. */
      actByRadio?: string;
      /** What shows it put right, where it is no call that something else follows. */
      proving?: string;
    }
  >
> = {
  'flat cells': {
    kind: 'flatCells',
    title: (item) => `${item}: batteries flat`,
    key: 'battery',
    act: 'Fit fresh batteries, all at once, no rechargeables; then see that it has kept its programme.',
    actByRadio:
      'Fit fresh batteries, all at once, no rechargeables; then see that it has kept its pairing and programme.',
  },
  'lost pairing': {
    kind: 'lostPairing',
    title: (item) => `${item}: pairing lost, or out of reach of its wireless room stat`,
    key: 'pair',
    act: 'Note the channel, bring the two close together, pair them again, and try from where the stat stands.',
  },
  'latched lever': {
    kind: 'latchedLever',
    title: (item) => `${item}: lever left latched on manual`,
    key: 'lever',
    act: 'Put the lever of the valve head back to automatic.',
    proving: 'Each call alone, both, and off: lever, flow and boiler follow.',
  },
  'low water pressure': {
    kind: 'lowPressure',
    title: (item) => `${item}: water pressure too low`,
    key: 'pressure',
    act: 'Cold: top up to the mark, disconnect the filling loop, reset the boiler once. It falls again: find the leak. Open-vented: see that the tank in the loft fills.',
    proving: 'The boiler fires on a call and stays in; the pressure holds, cold and hot.',
  },
  'no gas': {
    kind: 'noGas',
    title: (item) => `${item}: no gas reaches it`,
    key: 'gas',
    act: 'Credit on the meter, or the gas supplier; then reset the boiler once. A gas valve found shut stays shut until it is known who shut it and why: Gas Safe registered engineer.',
    proving: 'The boiler fires on each call and stays in, and stops when the last call goes.',
  },
  'frozen condensate': {
    kind: 'frozenCondensate',
    title: (item) => `${item}: condensate pipe frozen`,
    key: 'condensate pipe',
    act: 'Thaw the pipe outside with warm, not boiling water, at ground level; reset the boiler once. Advise insulation, or a wider pipe.',
    proving: 'The boiler fires on a call and stays in; condensate runs from the pipe.',
  },
  'MCB down': {
    kind: 'breaker',
    title: (item) => `${item}: switched off or tripped`,
    key: 'restore',
    act: 'Fused spur off first, then reset it once at the consumer unit, cover on. It trips with the spur off: electrician. It trips only once the spur is on: isolate, and find the short or leak behind it.',
    proving: 'It stays in with the spur on and every call run, one after the other.',
  },
};

/**
 * Causes that nothing is opened for: a setting that never calls or never stops, flat cells, a
 * lost pairing, a lever left latched; of a boiler no gas, low pressure, a frozen condensate pipe.
 * Each holds its condition whatever a mode sets.
 */
export function settingFaults(network: Network): Draft[] {
  return [...network.items].flatMap(([item, { device }]) => {
    const own = itemWords(network, item);
    // What a receiver obeys is set, and has its cells, in its wireless room stat.
    const sender = device.family === 'receiver' ? `wireless room stat of the ${own}` : own;
    const name = capital(own);
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
          const { kind, title, key, act, actByRadio, proving } = CAUSES[cause];
          const isByRadio = device.family === 'receiver';
          const what = (isByRadio && actByRadio) || act;
          const of = cause === 'flat cells' ? capital(sender) : name;
          return [held(!usual, kind, title(of), setRight(`${key} ${item}`, what, proving))];
        }
        if (!wants || !['control', 'receiver', 'sensor'].includes(device.family)) return [];
        const byHand = wants === 'heating by hand' || wants === 'frost protection';
        return [
          byHand
            ? held(
                true,
                'setting',
                `${name}: left on, ${wants}`,
                setRight(`set ${item}`, `Take ${wants} off at the ${own}.`),
              )
            : held(
                false,
                'setting',
                `${capital(sender)}: set so that it does not call for ${wants}`,
                setRight(
                  `set ${item}`,
                  wants === 'hot water' && !hasClock(device)
                    ? `A hot cylinder is no fault: the ${own} is satisfied. With the water cold, turn it up until it clicks, and show the customer.`
                    : hasClock(device)
                      ? `Set the ${sender}: clock, programme, holiday, on or off, temperature. Show the customer.`
                      : `Set the temperature on the ${sender}, and show the customer.`,
                ),
              ),
        ];
      },
    );
  });
}

/** Whether a device has electronics, and so may have a clock and a programme: a plain stat has none. */
const hasClock = ({ elements, conditions }: Device): boolean =>
  Object.values(elements).some((one) => one.kind === 'load' && one.draws === 'board') ||
  Object.values(conditions).some(({ cause }) => cause === 'flat cells');
