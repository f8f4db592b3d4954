import { addressOf } from './address.ts';
import type { FromFound, ToFound } from './messages.ts';
import type { SaidHazard } from './result.ts';

/** A worker as it is spoken to here. */
interface Speaking {
  readonly post: (message: ToFound) => void;
  readonly end: () => void;
}

/**
 * The dangers of a wiring as found that a job keeps, worked out in a worker of its own, which
 * ends with the answer. None where the link cannot be shown: its own page says why.
 * @param data absolute address of the system's data.
 * @param fragment the wiring as found, as the job keeps it.
 */
export function hazardsOfLink(
  data: string,
  fragment: string,
  start: (listen: (message: FromFound) => void) => Speaking = startWorker,
): { readonly hazards: Promise<readonly SaidHazard[]>; readonly end: () => void } {
  const text = addressOf(fragment).marks ?? '';
  const { promise, resolve } = Promise.withResolvers<readonly SaidHazard[]>();
  const finish = (hazards: readonly SaidHazard[]) => {
    worker.end();
    resolve(hazards);
  };
  const worker = start((message) => {
    if (message.type === 'opened') worker.post({ type: 'read', text });
    else if (message.type === 'read' && 'found' in message.link)
      worker.post({ type: 'work', number: 1, found: message.link.found, readings: [] });
    else if (message.type === 'worked') finish(message.result.hazards);
    else finish([]);
  });
  worker.post({ type: 'open', address: data });
  return { hazards: promise, end: () => finish([]) };
}

function startWorker(listen: (message: FromFound) => void): Speaking {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromFound>) => listen(data));
  worker.addEventListener('error', ({ message }) => listen({ type: 'failed', reason: message }));
  return { post: (message) => worker.postMessage(message), end: () => worker.terminate() };
}
