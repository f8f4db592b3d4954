import type { Variant } from '../../components/system/shown.ts';

/** The mode and the instrument chosen, by their places in the lists. */
export interface Chosen {
  readonly mode: number;
  readonly instrument: number;
}

/** Whether what bears these classes stands in a mode: `m0 m2`, or `am` in all. */
export const isIn = (when: string, mode: number): boolean =>
  when.split(' ').some((one) => one === 'am' || one === `m${mode}`);

/** The one of several looks of a reading that a mode and an instrument give. */
export const shownOf = (
  values: readonly Variant[],
  { mode, instrument }: Chosen,
): Variant['shown'] | undefined =>
  values.find(
    ({ when }) =>
      isIn(when, mode) && when.split(' ').some((one) => one === 'ai' || one === `i${instrument}`),
  )?.shown;
