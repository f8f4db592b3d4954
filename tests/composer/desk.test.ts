import { expect, it } from 'vitest';
import { ComposerDesk, type Effects, type Step } from '../../src/composer/desk.ts';
import { ComposerEngine } from '../../src/composer/engine.ts';
import type { FromComposer, ToComposer } from '../../src/composer/messages.ts';
import { parts } from './parts.ts';

const COMBI = 'v=1&heat=combi-mains-call&heating=wireless-receiver';

/** A browser's history, and a worker that answers at once. */
function browser(address = '') {
  const engine = new ComposerEngine(parts());
  const history: { address: string; step: Step }[] = [{ address, step: {} }];
  const asked: ToComposer[] = [];
  let listen: (message: FromComposer) => void = () => {};
  const answer = (message: ToComposer) => {
    if (message.type === 'open') listen({ type: 'opened' });
    else if (message.type === 'stand') {
      const { number, answers, at } = message;
      listen({ type: 'standing', number, standing: engine.stand(answers, at) });
    } else if (message.type === 'work') {
      const { number, address: of } = message;
      const opened = engine.open(of);
      if ('wrong' in opened) listen({ type: 'wrong', number, ...opened });
      else {
        const view = engine.work(opened.specification);
        listen({ type: 'worked', number, view, answers: opened.answers, answered: [] });
      }
    }
  };
  let kept: ReturnType<Effects['kept']> = null;
  const effects: Effects = {
    parts: 'parts.json',
    start: (heard) => {
      listen = heard;
      return (message) => asked.push(message);
    },
    here: () => history.at(-1)!,
    push: (to, step) => history.push({ address: to, step }),
    replace: (to, step) => history.splice(-1, 1, { address: to, step }),
    kept: () => kept,
    keep: (one) => {
      kept = one;
    },
  };
  const desk = new ComposerDesk(effects, () => {});
  const settle = () => {
    while (asked.length > 0) answer(asked.shift()!);
  };
  settle();
  const back = () => {
    history.pop();
    desk.follow();
    settle();
  };
  const tap = (...options: string[]) => {
    for (const option of options) {
      desk.answer(option);
      settle();
    }
  };
  const question = () =>
    desk.screen.kind === 'asking' ? desk.screen.standing.question?.id : undefined;
  return { desk, history, settle, back, tap, question, say: (m: FromComposer) => listen(m) };
}

const TAPS = [
  'combi boiler',
  'combi-mains-call',
  'direct',
  'none',
  '1',
  'none',
  'none',
  'wireless-receiver',
];

it('an answer tapped just before “the rest as usual” is not lost, and none is taken twice', () => {
  const { desk, history, tap, settle } = browser();
  tap(...TAPS);
  const { screen } = desk;
  if (screen.kind !== 'asking') throw new Error(screen.kind);
  const inSupply = screen.standing.question!.options.find(({ title }) => /supply/.test(title))!;
  desk.answer(inSupply.id);
  desk.answer('none');
  desk.answerUsual();
  settle();
  expect(history.at(-1)!.address).toBe(`${COMBI}&additions=condensate-pump`);
});

it('each answer is a step of history, the last of them the address', () => {
  const { desk, history, tap, settle, back, question } = browser();
  tap(...TAPS);
  expect(question()).toBe('with-condensate-pump');
  expect(history).toHaveLength(TAPS.length + 1);
  desk.answerUsual();
  settle();
  expect(desk.screen).toMatchObject({ kind: 'worked', part: '', worked: { address: COMBI } });
  expect(history.at(-1)!.address).toBe(COMBI);
  back();
  expect(question()).toBe('with-condensate-pump');
  back();
  expect(question()).toBe('control-1');
});

it('a part looked at is a step, and Back shows the arrangement without working it out anew', () => {
  const { desk, history, back } = browser(COMBI);
  const { worked } = desk.screen as Extract<typeof desk.screen, { kind: 'worked' }>;
  desk.look('readings');
  expect(desk.screen).toMatchObject({ part: 'readings' });
  expect(history).toHaveLength(2);
  back();
  expect(desk.screen).toMatchObject({ part: '' });
  expect((desk.screen as { worked: unknown }).worked).toBe(worked);
});

it('a question asked again keeps the other answers', () => {
  const { desk, tap, settle, question, history } = browser(COMBI);
  desk.change('control-1');
  settle();
  expect(question()).toBe('control-1');
  tap('room-stat-two-wire');
  expect(history.at(-1)!.address).toBe(COMBI.replace('wireless-receiver', 'room-stat-two-wire'));
});

it('a damaged address is told, and the last arrangement is still offered', () => {
  const { desk, settle, history } = browser(COMBI);
  history.push({ address: 'v=1&heat=nothing', step: {} });
  desk.follow();
  settle();
  expect(desk.screen).toMatchObject({ kind: 'wrong', wrong: expect.stringContaining('nothing') });
  desk.begin();
  settle();
  expect(desk.screen).toMatchObject({ kind: 'asking', kept: { address: COMBI } });
});

it('what the worker says of an earlier question is passed over', () => {
  const { desk, say, settle, tap } = browser();
  tap('combi boiler');
  const before = desk.screen;
  say({ type: 'judged', number: 0, option: 'combi-mains-call', unsound: { found: 'old' } });
  settle();
  expect(desk.screen).toBe(before);
});

it('a worker that fails is said, with its reason', () => {
  const { desk, say } = browser();
  say({ type: 'failed', reason: 'parts.json answered 404' });
  expect(desk.screen).toEqual({ kind: 'failed', reason: 'parts.json answered 404' });
});
