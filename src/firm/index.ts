/** A firm's own folder over the reference: the door to this room. */
export { type Checked, checkReference, type Sources } from './check.ts';
export {
  accentContrast,
  accentStyles,
  contrast,
  GROUNDS,
  LEAST_CONTRAST,
  readable,
  type Scheme,
} from './contrast.ts';
export { CONTENT, contentFolder, firmFolder } from './folders.ts';
export { type Logo, MOST_LOGO_BYTES, readLogo } from './logo.ts';
export { FIRM_PREFIX, type FirmFolder, firmJsonSchema, readFirm } from './read.ts';
export { RELEASES, releaseNames } from './release-names.ts';
export {
  changesBetween,
  REVIEWS,
  type ReviewRecord,
  recordFrom,
  recordPath,
  recordText,
  reviewLine,
} from './review.ts';
export { type Reviewed, reviewsOf } from './reviews.ts';
export { checkSources, firmFlag, located, pathOf } from './sources.ts';
export { svgProblem } from './svg.ts';
