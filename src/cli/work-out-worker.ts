/** Works out the results it is sent, one after the other. */
import { parentPort } from 'node:worker_threads';
import { type Kind, makeResult, type Source } from '../reference/results/index.ts';

parentPort!.on('message', ({ kind, source }: { kind: Kind; source: Source }) => {
  const bytes = Uint8Array.from(makeResult(kind, source));
  parentPort!.postMessage(bytes, [bytes.buffer]);
});
