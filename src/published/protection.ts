import { type Amps, amps } from '../units/index.ts';
import { type Source, seen } from './source.ts';

/** Multiples of rated current of a BS 1362 fuse link: must not and must blow within 30 min. */
export const FUSE_MULTIPLES: {
  readonly carries: number;
  readonly breaks: number;
  readonly source: Source;
} = {
  carries: 1.6,
  breaks: 1.9,
  source: seen('BS 1362: carries 1.6 In and breaks 1.9 In, 30 min'),
};

/** Body colour of a BS 1362 fuse link by its rating: 3 A red, 13 A brown, others black. */
export function fuseColour(rating: Amps): 'red' | 'brown' | 'black' {
  if (rating === 3) return 'red';
  return rating === 13 ? 'brown' : 'black';
}

/** Rating of the fuse that feeds heating controls (common practice, no source). */
export const CONTROLS_FUSE: Amps = amps(3);

/** EN 60898 type B: instantaneous trip at this multiple of rated current, within 0.4 s. */
export const TYPE_B_TRIP_MULTIPLE = 5;
export const TYPE_B_SOURCE: Source = seen('EN 60898: type B trips at 5 In within 0.4 s');
