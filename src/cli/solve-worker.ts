/** Solves the problems it is sent, one after the other, each within the states it is given. */
import { parentPort } from 'node:worker_threads';
import { type SearchProblem, solveSequence } from '../diagnosis/search/index.ts';

parentPort!.on('message', ([problem, budget]: [SearchProblem, number]) => {
  parentPort!.postMessage(solveSequence(problem, budget));
});
