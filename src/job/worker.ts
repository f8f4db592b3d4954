import type { PartsData } from '../composer/parts-data.ts';
import { ComposedEngine } from './composed-engine.ts';
import { Engine } from './engine.ts';
import type { JobData } from './job-data.ts';
import type { EngineSource, FromEngine, ToEngine } from './messages.ts';

/** Time spent on preparing before other messages are looked at, milliseconds. */
const PREPARING_MS = 8;
/** The same of a search for pairs: pausing oftener would cost it as much as it searches. */
const SEEKING_MS = 80;
/** The same of working out what faults show. */
const WORKING_MS = 30;

let engine: Engine | undefined;
/** Where the system is an arrangement from parts. */
let composed: ComposedEngine | undefined;
/** Counts what is to be found: work for one is left off when another is asked. */
let asked = 0;
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
    await open(message);
    return;
  }
  if (message.type === 'drop') return;
  if (!engine) throw new Error('the engine was asked before its data came');
  if (message.type === 'find' && composed) {
    await workOut(composed, message);
    return;
  }
  if (message.type === 'find') {
    const { number, request } = message;
    if (request.pairs && !(await workedThrough(engine.seek(request), SEEKING_MS, turn))) return;
    say({ type: 'found', number, findings: engine.find(request) });
    const next = engine.next(request);
    if (next !== undefined) say({ type: 'next', number, next });
    return;
  }
  if (message.type === 'draw') {
    say({ type: 'drawn', svg: engine.draw() });
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
  const { asked: questions } = message;
  const due = questions.map((one) => engine!.due(one));
  say({ type: 'due', asked: questions, due });
  if (message.prepare && questions[0])
    await workedThrough(engine.warm(questions[0]), PREPARING_MS, turn);
}

async function open(source: EngineSource): Promise<void> {
  if ('data' in source) {
    engine = new Engine(source.data);
    say({ type: 'opened', sheet: engine.sheet });
    return;
  }
  const isComposed = 'specification' in source;
  const address = isComposed ? source.parts : source.address;
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address} answered ${response.status}`);
  if (!isComposed) {
    engine = new Engine((await response.json()) as JobData);
    say({ type: 'opened', sheet: engine.sheet });
    return;
  }
  composed = new ComposedEngine(source.specification, (await response.json()) as PartsData);
  engine = composed.engine;
  say({ type: 'opened', sheet: composed.sheet, shows: composed.shows });
}

/**
 * Ranks and chooses in an arrangement from parts as far as it is worked out, and works on. A test
 * that is proposed stays proposed: only where none could be chosen yet is one chosen later.
 */
async function workOut(
  arrangement: ComposedEngine,
  { number, request }: Extract<ToEngine, { type: 'find' }>,
): Promise<void> {
  asked += 1;
  const own = asked;
  const found = () => say({ type: 'found', number, findings: arrangement.engine.find(request) });
  let isChosen = false;
  const choose = (isLast: boolean) => {
    const next = arrangement.engine.next(request);
    if (isChosen || next === undefined || (next === null && !isLast)) return;
    isChosen = true;
    say({ type: 'next', number, next });
  };
  const steps = arrangement.work(request);
  for (;;) {
    const until = performance.now() + WORKING_MS;
    while (performance.now() < until) {
      const { value, done } = steps.next();
      if (done) return;
      if (value === 'whole') say({ type: 'whole', data: arrangement.data });
      if (value === 'ranked' || value === 'whole') found();
      if (value === 'enough') choose(false);
      if (value === 'all' || value === 'whole') choose(true);
      if (value === 'standing') say({ type: 'standing', composed: arrangement.sheet.composed! });
    }
    await new Promise((resume) => setTimeout(resume));
    if (own !== asked) return;
  }
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
