import type { Device } from './device.ts';
import { ISOLATED } from './isolated.ts';
import type { Sign } from './symptom.ts';
import type { System } from './system.ts';

/** An item of a system with its device, as a sign is matched against it. */
export interface SignItem {
  readonly item: string;
  readonly deviceId: string;
  readonly device: Device;
}

/** Items that a sign is about: of its family and devices, with the outcome or a fuse. */
export function itemsOfSign(sign: Sign, items: Iterable<SignItem>): SignItem[] {
  return [...items].filter(({ deviceId, device }) => {
    const { family, devices } = sign;
    const named = [deviceId, device.extends].some(
      (id) => id !== undefined && devices?.includes(id),
    );
    if (device.family !== family || (devices && !named)) return false;
    return 'fuse' in sign ? hasFuse(device) : Object.hasOwn(device.outcomes, sign.outcome);
  });
}

/** Whether a device holds a fuse link that can be taken out. */
export const hasFuse = ({ elements }: Device): boolean =>
  Object.values(elements).some(({ kind }) => kind === 'fuse');

/**
 * Whether a system can show a sign: it has items for it, and every mode the sign names is
 * one that an engineer can bring about with the supply on.
 */
export function canShow(
  sign: Sign,
  items: Iterable<SignItem>,
  modes: Readonly<Record<string, Pick<System['modes'][string], 'testable'>>>,
): boolean {
  if (itemsOfSign(sign, items).length === 0) return false;
  if ('fuse' in sign) return Object.hasOwn(modes, ISOLATED);
  return sign.modes.every(
    (mode) => mode !== ISOLATED && Object.hasOwn(modes, mode) && modes[mode]!.testable,
  );
}
