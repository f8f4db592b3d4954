import { type Amps, amps } from '../units/index.ts';
import { commonPractice, fromMemory, type Source, seen } from './source.ts';

/** Standards of the fuse links that heating controls hold. */
export const FUSE_STANDARDS = ['BS 1362', 'IEC 60127'] as const;
export type FuseStandard = (typeof FUSE_STANDARDS)[number];

/** Multiple of rated current that a fuse link must break, by its standard. */
export const FUSE_BREAKS: {
  readonly [S in FuseStandard]: { readonly multiple: number; readonly source: Source };
} = {
  'BS 1362': { multiple: 1.9, source: seen('BS 1362: breaks 1.9 In within 30 min') },
  'IEC 60127': { multiple: 2.1, source: fromMemory('IEC 60127-2: breaks 2.1 In') },
};

/** Multiple of rated current that a BS 1362 fuse link must carry for 30 min. */
export const FUSE_CARRIES: { readonly multiple: number; readonly source: Source } = {
  multiple: 1.6,
  source: seen('BS 1362: carries 1.6 In for 30 min'),
};

/** Body colour of a BS 1362 fuse link by its rating: 3 A red, 13 A brown, others black. */
export function fuseColour(rating: Amps): 'red' | 'brown' | 'black' {
  if (rating === 3) return 'red';
  return rating === 13 ? 'brown' : 'black';
}

/** Rating of the fuse that feeds heating controls. */
export const CONTROLS_FUSE: Amps = amps(3);
export const CONTROLS_FUSE_SOURCE: Source = commonPractice;

/** How current, rating and capacity stand to one another where a cable is protected. */
export const OVERLOAD_SOURCE: Source = fromMemory(
  'BS 7671 433.1.1: load ≤ rating of the device ≤ capacity of the cable; 433.2.2: the device may stand behind the cable where nothing branches off before it',
);

/** EN 60898 type B: instantaneous trip at this multiple of rated current, within 0.4 s. */
export const TYPE_B_TRIP_MULTIPLE = 5;
export const TYPE_B_SOURCE: Source = seen('EN 60898: type B trips at 5 In within 0.4 s');
