import { Engine } from './engine.ts';
import type { JobData } from './job-data.ts';
import type { FromEngine, ToEngine } from './messages.ts';

/** Time spent on preparing before other messages are looked at, milliseconds. */
const SLICE_MS = 8;

let engine: Engine | undefined;
/** Counts messages: what is prepared for one stops when another comes. */
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
  if (!engine) throw new Error('the engine was asked before its data came');
  if (message.type === 'find') {
    const { number, request } = message;
    say({ type: 'found', number, findings: engine.find(request) });
    const next = engine.next(request);
    if (next !== undefined) say({ type: 'next', number, next });
    return;
  }
  const { asked } = message;
  say({ type: 'due', asked, due: asked.map((one) => engine!.due(one)) });
  if (message.prepare && asked[0]) await prepare(engine.warm(asked[0]), turn);
}

/** Works through some steps between messages, until another one comes. */
async function prepare(steps: Generator<void>, turn: number): Promise<void> {
  for (;;) {
    const until = performance.now() + SLICE_MS;
    while (performance.now() < until) if (steps.next().done) return;
    await new Promise((resume) => setTimeout(resume));
    if (turn !== latest) return;
  }
}
