/** Solves the problems it is sent, one after the other. */
import { parentPort } from 'node:worker_threads';
import { SEARCH_BUDGET, type SearchProblem, solveSequence } from '../diagnosis/search/index.ts';

parentPort!.on('message', (problem: SearchProblem) => {
  parentPort!.postMessage(solveSequence(problem, SEARCH_BUDGET));
});
