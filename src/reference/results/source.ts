import type { Device, System } from '../../../schemas/index.ts';

/**
 * All that a result of a system is worked out from: plain data, so that a hash names it and a
 * thread can be sent it.
 */
export interface Source {
  /** Entry id of the system. */
  readonly id: string;
  readonly system: System;
  readonly devices: Readonly<Record<string, Device>>;
}

/**
 * The system without what is only said of it. A result made of this cannot depend on a word of
 * the rest, so an edit there leaves it.
 */
export const bareSystem = (system: System): System => ({
  ...system,
  title: '',
  summary: '',
  aliases: [],
  formerly: undefined,
  recognise: [],
  notes: [],
  cautions: [],
  exceptions: [],
  author: undefined,
  review: undefined,
  checked: '',
  version: 1,
});

/** The same of a device. */
export const bareDevice = (device: Device): Device => ({
  ...device,
  title: '',
  summary: '',
  aliases: [],
  formerly: undefined,
  cautions: [],
  author: undefined,
  review: undefined,
});
