import { Engine } from './engine.ts';
import type { JobData } from './job-data.ts';
import type { FromEngine, ToEngine } from './messages.ts';

/** Time spent on preparing before other messages are looked at, milliseconds. */
const PREPARING_MS = 8;
/** The same of a search for pairs: pausing oftener would cost it as much as it searches. */
const SEEKING_MS = 80;

let engine: Engine | undefined;
/** Counts messages: long work for one is dropped when another comes. */
let latest = 0;

const say = (message: FromEngine) => self.postMessage(message);

self.addEventListener('message', ({ data }: MessageEvent<ToEngine>) => {
  latest += 1;
  void answer(data, latest).catch((failure: unknown) => {
    say({ type: 'failed', reason: failure instanceof Error ? failure.message : String(failure) });
  });
});

async function answer(message: ToEngine, turn: number): Promise<void> {
  if (message.type === 'open') {
    const response = await fetch(message.address);
    if (!response.ok) throw new Error(`${message.address} answered ${response.status}`);
    engine = new Engine((await response.json()) as JobData);
    say({ type: 'opened', sheet: engine.sheet });
    return;
  }
  if (message.type === 'drop') return;
  if (!engine) throw new Error('the engine was asked before its data came');
  if (message.type === 'find') {
    const { number, request } = message;
    if (request.pairs && !(await workedThrough(engine.seek(request), SEEKING_MS, turn))) return;
    say({ type: 'found', number, findings: engine.find(request) });
    const next = engine.next(request);
    if (next !== undefined) say({ type: 'next', number, next });
    return;
  }
  if (message.type === 'path') {
    const { request, key } = message;
    say({ type: 'path', key, path: engine.path(request, key) });
    return;
  }
  if (message.type === 'shown') {
    const { request, said } = message;
    say({ type: 'shown', said, modes: engine.shownIn(request, said) });
    return;
  }
  const { asked } = message;
  say({ type: 'due', asked, due: asked.map((one) => engine!.due(one)) });
  if (message.prepare && asked[0]) await workedThrough(engine.warm(asked[0]), PREPARING_MS, turn);
}

/** Works through some steps between messages. @returns whether it came to their end. */
async function workedThrough(steps: Iterator<void>, slice: number, turn: number): Promise<boolean> {
  for (;;) {
    const until = performance.now() + slice;
    while (performance.now() < until) if (steps.next().done) return true;
    await new Promise((resume) => setTimeout(resume));
    if (turn !== latest) return false;
  }
}
