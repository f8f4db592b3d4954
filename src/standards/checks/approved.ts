import { list } from '../say.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';

/** Only devices of the list are fitted. */
export const approved: Check<'approved devices'> = {
  words: ({ devices, families }, deviceName) =>
    `${families ? `Every item of the ${list(families, 'or')}` : 'Every item'} is one of these devices: ${list(devices.map(deviceName), 'or')}.`,
  run({ devices, families }, { network }) {
    const items = [...network.items.values()].filter(
      ({ device }) => !families || families.includes(device.family),
    );
    if (items.length === 0) return apart(`no item is of the family ${list(families ?? [], 'or')}`);
    const findings = items.flatMap(({ reference, deviceId }): Finding[] =>
      devices.includes(deviceId)
        ? []
        : [
            {
              at: reference,
              path: ['items', reference, 'device'],
              message: `${reference} is ${deviceId}, which is not approved`,
              found: deviceId,
              allowed: list(devices, 'or'),
              mend: `Fit ${list(devices, 'or')}, or have ${deviceId} approved`,
            },
          ],
    );
    return verdict(findings, `items: ${items.length}`);
  },
};
