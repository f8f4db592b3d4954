/** The order of tests that takes the least expected minutes: the door to this room. */
export { huffman } from './coding.ts';
export { orderPolicyTree } from './order.ts';
export type {
  SearchFault,
  SearchLeaf,
  SearchProblem,
  SearchResult,
  SearchStep,
  SearchTest,
  SearchTree,
} from './problem.ts';
export { SEARCH_BUDGET, solveSequence } from './solve.ts';
export { type Walk, walkTree } from './walk.ts';
