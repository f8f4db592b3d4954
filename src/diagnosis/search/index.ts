/** The order of tests that takes the least expected minutes: the door to this room. */
export { huffmanBound } from './huffman-bound.ts';
export type {
  Rules,
  SearchFault,
  SearchLeaf,
  SearchProblem,
  SearchResult,
  SearchStep,
  SearchTest,
  SearchTree,
} from './problem.ts';
export { SEARCH_BUDGET, solveSequence } from './solve.ts';
export { orderPolicyTree } from './tree.ts';
export { type Walk, walkTree } from './walk.ts';
