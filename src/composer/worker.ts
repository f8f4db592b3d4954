import { type Agreed, ComposerEngine } from './engine.ts';
import type { FromComposer, ToComposer } from './messages.ts';
import type { PartsData } from './parts-data.ts';

/** Longest that the comparison with the demand table may take, ms. */
const BUDGET = 20_000;
/** Longest that anything is worked at without looking for what was asked since, ms. */
const A_TURN = 40;

let engine: ComposerEngine | undefined;
let latest = 0;

const say = (message: FromComposer) => self.postMessage(message);
const turn = () => new Promise<void>((resolve) => setTimeout(resolve));

self.addEventListener('message', ({ data }: MessageEvent<ToComposer>) => {
  if ('number' in data) latest = data.number;
  void answer(data).catch((failure: unknown) =>
    say({ type: 'failed', reason: failure instanceof Error ? failure.message : String(failure) }),
  );
});

async function answer(message: ToComposer): Promise<void> {
  if (message.type === 'open') {
    const response = await fetch(message.address);
    if (!response.ok) throw new Error(`${message.address} answered ${response.status}`);
    engine = new ComposerEngine((await response.json()) as PartsData);
    say({ type: 'opened' });
    return;
  }
  if (!engine) throw new Error('the parts are not there yet');
  switch (message.type) {
    case 'stand':
      await stand(engine, message);
      return;
    case 'work':
      await work(engine, message);
      return;
    case 'offer':
      say({ type: 'offered', number: message.of, offers: engine.offers() });
      return;
    case 'replace': {
      const { of, item, device } = message;
      say({ type: 'replaced', number: of, item, device, sheet: engine.replace(item, device) });
    }
  }
}

async function stand(
  composer: ComposerEngine,
  { number, answers, at }: Extract<ToComposer, { type: 'stand' }>,
): Promise<void> {
  const standing = composer.stand(answers, at);
  say({ type: 'standing', number, standing });
  if (!standing.question) return;
  await turn();
  for (const { option, unsound } of composer.judge(standing.question, standing.answers)) {
    say({ type: 'judged', number, option, unsound: unsound ?? null });
    await turn();
    if (latest !== number) return;
  }
}

async function work(
  composer: ComposerEngine,
  { number, address }: Extract<ToComposer, { type: 'work' }>,
): Promise<void> {
  const opened = composer.open(address);
  if ('wrong' in opened) {
    say({ type: 'wrong', number, ...opened });
    return;
  }
  const { specification, answers } = opened;
  const view = composer.work(specification);
  const answered = answers ? composer.stand(answers).answered : [];
  say({ type: 'worked', number, view, answers, answered });
  await turn();
  if (latest !== number) return;
  say({ type: 'drawn', number, variant: 'narrow', svg: composer.draw('narrow') });
  await turn();
  if (latest !== number) return;
  say({ type: 'told', number, data: composer.drawingData() });
  await turn();
  if (latest !== number) return;
  await agree(composer, number);
  if (latest !== number) return;
  say({ type: 'drawn', number, variant: 'landscape', svg: composer.draw('landscape') });
}

async function agree(composer: ComposerEngine, number: number): Promise<void> {
  const steps = composer.agree();
  const ends = performance.now() + BUDGET;
  let until = performance.now() + A_TURN;
  let agreed: Agreed = { tried: 0, of: 0 };
  for (;;) {
    const { value, done } = steps.next();
    agreed = value;
    if (done || performance.now() > ends) break;
    if (performance.now() < until) continue;
    say({ type: 'agreeing', number, agreed, isDone: false });
    await turn();
    if (latest !== number) return;
    until = performance.now() + A_TURN;
  }
  say({ type: 'agreeing', number, agreed, isDone: true });
}
