/** A circuit as it is found: what differs, what it does, what is dangerous. */
export { afterChange, changesFor, changeText, type RestoringChange } from './changes.ts';
export {
  agree,
  compareModes,
  type ModePair,
  type OutcomePair,
  type ReadingPair,
  tellingOf,
} from './compare.ts';
export { type Difference, differencesOf } from './differences.ts';
export { HAZARD_KINDS, type Hazard, type HazardKind, hazardsOf } from './hazards/index.ts';
export { type FoundLink, foundLink, readFoundLink } from './link.ts';
export { partText } from './names.ts';
export { asFoundOf } from './recognise.ts';
export { AsFoundData } from './schema.ts';
export { DAMAGED, type LinkProblem, MOST_LINK, seal, type Unsealed, unseal } from './seal.ts';
export {
  AS_ENTRY,
  type AsFound,
  coresOf,
  dueAt,
  type FoundEnd,
  foundNetwork,
  foundSystem,
  isTerminal,
  itemAtEnd,
} from './state.ts';
export {
  countMarks,
  isAsEntry,
  isBridgeable,
  problemWithFound,
  ratingDue,
  tidy,
} from './tidy.ts';
