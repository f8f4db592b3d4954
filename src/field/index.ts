/** What comes back from the field, and what a firm's visits make of our figures: the door to this room. */
export {
  COUNTS_FILE,
  type CountedVisit,
  countsText,
  MOST_VISITS,
  type ReadCounts,
  readCounts,
} from './counts.ts';
export { CAUSES, type FieldFile, REPORTED, type Report, type Visit } from './file.ts';
export {
  type Counted,
  countVisits,
  type EntryReports,
  type Gathered,
  gather,
  type Known,
  type Refused,
  reportsByEntry,
  shown,
} from './gather.ts';
export {
  betaBelow,
  betaInterval,
  betaQuantile,
  type Interval,
  logGamma,
} from './learning/beta.ts';
export {
  DEFAULT_STRENGTH,
  FAMILY_IDS,
  type Learned,
  type LearnedHistory,
  type LearnedRow,
  learn,
  learnedSource,
} from './learning/learned.ts';
export {
  type Met,
  type Posterior,
  shareInterval,
  sharesAmong,
  Tally,
} from './learning/posterior.ts';
export { type Compared, foretold, mostLost, type Scores, scoreOf } from './learning/scores.ts';
export { FIELD_VERSION, MOST_FIELD_BYTES, MOST_MINUTES, MOST_SEEN } from './limits.ts';
export { type ReadField, type Refusal, readFieldBytes, readFieldText } from './read.ts';
export {
  type KeptReport,
  keptOf,
  MOST_REPORTS,
  REPORTS_FILE,
  readReports,
  reportsFileText,
} from './reports.ts';
export { type MetWiring, variantText, wiringMet } from './variants.ts';
export { fieldName, fieldText, messageText } from './write.ts';
