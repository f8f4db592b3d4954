import type { Device } from '../../schemas/index.ts';

/**
 * Whether a condition is of gas, water or frost, beyond the controls: it does no more than keep a
 * boiler from firing. What wiring must do is tried without it: set half the time, it would hide
 * what fires a boiler that must not.
 */
export const isBeyondControls = ({ family, conditions }: Device, condition: string): boolean =>
  family === 'boiler' && conditions[condition]?.cause !== undefined;
