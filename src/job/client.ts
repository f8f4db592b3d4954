import type { Sighting } from '../diagnosis/index.ts';
import type { Request } from './engine.ts';
import type { Asked, Due, Findings, FoundPath, NextTest } from './findings.ts';
import type { EngineSource, FromEngine, ToEngine } from './messages.ts';
import type { Sheet } from './sheet.ts';

type Wanted = Omit<Request, 'pairs'>;
export type Shows = Readonly<Record<string, readonly Sighting[]>>;

/** What the page is told as the engine works. */
export interface Heard {
  /** @param shows of an arrangement from parts, what each symptom shows there for certain. */
  readonly opened: (sheet: Sheet, shows?: Shows) => void;
  /** What is proven of an arrangement from parts, now that more of it was tried. */
  readonly standing: (composed: NonNullable<Sheet['composed']>) => void;
  readonly drawn: (svg: string) => void;
  readonly failed: (reason: string) => void;
  /** A ranking; `next` follows when the test is chosen. */
  readonly found: (findings: Findings) => void;
  readonly next: (next: NextTest | null) => void;
  readonly due: (asked: readonly Asked[], due: readonly Due[]) => void;
  /** Modes in which the cause of the repair asked about would have shown. */
  readonly shown: (said: string, modes: readonly string[]) => void;
  /** What the repair asked about leaves of the circuit. */
  readonly path: (key: string, path: FoundPath | null) => void;
}

/** The engine of one system as a page uses it. */
export interface EngineClient {
  /** Ranks anew. What an earlier call has not answered yet is dropped. */
  readonly find: (request: Wanted) => void;
  /** @param prepare whether the first is about to be answered. */
  readonly due: (asked: readonly Asked[], prepare: boolean) => void;
  /** Asks what a repair of the last ranking leaves of the circuit. */
  readonly path: (key: string) => void;
  /** Asks in which modes a repair’s cause would have shown, by what was found before it. */
  readonly shown: (before: Wanted, said: string) => void;
  /** Asks for the drawing of a system that has none to be fetched. */
  readonly draw: () => void;
  readonly close: () => void;
}

/**
 * Starts the engine in a worker. Pairs of faults take seconds where they are needed: a second
 * worker looks for them, so that the first answers the next reading at once.
 */
export function startEngine(source: EngineSource, heard: Heard): EngineClient {
  let number = 0;
  let request: Wanted | undefined;
  let pairs: PairSeeker | undefined;
  /** Whether the last ranking told has pairs: then it is the second worker’s. */
  let isOfPairs = false;
  /** What the second worker is opened with; of an arrangement from parts, once it is worked out. */
  let forPairs: EngineSource | undefined = 'specification' in source ? undefined : source;

  const first = startWorker((message) => {
    switch (message.type) {
      case 'opened':
        heard.opened(message.sheet, message.shows);
        return;
      case 'failed':
        heard.failed(message.reason);
        return;
      case 'drawn':
        heard.drawn(message.svg);
        return;
      case 'standing':
        heard.standing(message.composed);
        return;
      case 'whole':
        forPairs = { data: message.data };
        return;
      case 'due':
        heard.due(message.asked, message.due);
        return;
      case 'found':
        if (message.number !== number) return;
        isOfPairs = false;
        heard.found(message.findings);
        if (message.findings.wantsPairs && request) seekPairs(request);
        return;
      case 'next':
        if (message.number === number) heard.next(message.next);
        return;
      case 'shown':
        heard.shown(message.said, message.modes);
        return;
      case 'path':
        heard.path(message.key, message.path);
        return;
    }
  });
  first.postMessage({ type: 'open', ...source });

  function seekPairs(wanted: Wanted): void {
    if (!forPairs) return;
    pairs ??= startPairSeeker(forPairs, {
      found: (findings, of) => {
        if (of !== request) return;
        isOfPairs = true;
        heard.found(findings);
      },
      path: heard.path,
      next: (next, of) => of === request && heard.next(next),
      failed: heard.failed,
    });
    pairs.seek(wanted);
  }

  return {
    find(wanted) {
      number += 1;
      request = wanted;
      pairs?.drop();
      first.postMessage({ type: 'find', number, request: { ...wanted, pairs: false } });
    },
    due(asked, prepare) {
      first.postMessage({ type: 'due', asked, prepare });
    },
    path(key) {
      if (!request) return;
      if (isOfPairs) pairs?.path(request, key);
      else first.postMessage({ type: 'path', request: { ...request, pairs: false }, key });
    },
    shown(before, said) {
      first.postMessage({ type: 'shown', request: { ...before, pairs: false }, said });
    },
    draw() {
      first.postMessage({ type: 'draw' });
    },
    close() {
      first.terminate();
      pairs?.close();
    },
  };
}

interface Seeking {
  readonly found: (findings: Findings, of: Wanted) => void;
  readonly next: (next: NextTest | null, of: Wanted) => void;
  readonly path: Heard['path'];
  readonly failed: (reason: string) => void;
}

type PairSeeker = ReturnType<typeof startPairSeeker>;

/** The worker that looks for pairs; what it is still at is dropped for what comes next. */
function startPairSeeker(source: EngineSource, { found, next, path, failed }: Seeking) {
  let number = 0;
  let wanted: Wanted | undefined;
  let open = false;
  const worker = startWorker((message) => {
    switch (message.type) {
      case 'opened':
        open = true;
        begin();
        return;
      case 'found':
        if (wanted && message.number === number) found(message.findings, wanted);
        return;
      case 'next':
        if (wanted && message.number === number) next(message.next, wanted);
        return;
      case 'failed':
        failed(message.reason);
        return;
      case 'path':
        path(message.key, message.path);
        return;
      case 'due':
      case 'shown':
      case 'standing':
      case 'whole':
      case 'drawn':
        return;
    }
  });
  worker.postMessage({ type: 'open', ...source });
  function begin(): void {
    if (!open || !wanted) return;
    number += 1;
    worker.postMessage({ type: 'find', number, request: { ...wanted, pairs: true } });
  }
  return {
    seek(request: Wanted): void {
      wanted = request;
      begin();
    },
    path(request: Wanted, key: string): void {
      worker.postMessage({ type: 'path', request: { ...request, pairs: true }, key });
    },
    drop(): void {
      if (wanted && open) worker.postMessage({ type: 'drop' });
      wanted = undefined;
    },
    close: () => worker.terminate(),
  };
}

function startWorker(listen: (message: FromEngine) => void) {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromEngine>) => listen(data));
  worker.addEventListener('error', ({ message }) =>
    listen({ type: 'failed', reason: message || 'the engine could not be started' }),
  );
  return {
    postMessage: (message: ToEngine) => worker.postMessage(message),
    terminate: () => worker.terminate(),
  };
}
