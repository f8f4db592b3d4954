import { describe, expect, test } from 'vitest';
import {
  askedIn,
  type Draft,
  newDraft,
  observationTyped,
  observationWith,
  typedIn,
  withPoint,
} from '../../src/job/draft.ts';
import { newJob } from '../../src/job/job.ts';
import { ohmsAnswer, ohmsText, voltsAnswer, voltsText } from '../../src/job/words.ts';
import { systemForJob } from './systems.ts';

const { engine } = systemForJob('combi-volt-free');
const job = newJob({ id: 'x', title: 'X', wiring: 1, mode: 'heating' }, { name: '', place: '' });
const draft = (change: Partial<Draft>): Draft => ({ ...newDraft(job), ...change });

describe('a figure as it is typed', () => {
  test.each([
    ['', null],
    ['.', null],
    ['0', 0],
    ['230', 230],
    ['.5', 0.5],
    ['12.', 12],
    ['−24', -24],
    ['1.2.3', null],
    ['−', null],
  ])('%s', (typed, figure) => {
    expect(typedIn(draft({ typed }))).toBe(figure);
  });

  test('of a resistance counts in its unit', () => {
    const dead = draft({ kind: 'dead', typed: '4.7', scale: 1000, from: 'a.b', to: 'a.c' });
    expect(observationTyped(engine.sheet, dead)).toMatchObject({
      kind: 'dead',
      answer: { ohms: 4700 },
    });
  });

  test('of an alternating voltage has no sign', () => {
    const live = draft({ typed: '−112', from: 'a.b', to: 'a.c' });
    expect(observationTyped(engine.sheet, live)).toMatchObject({
      answer: { volts: 112, current: 'ac' },
    });
  });
});

test('a reading is whole only with two different points', () => {
  expect(askedIn(draft({ from: 'a.b' }))).toBeNull();
  expect(askedIn(draft({ from: 'a.b', to: 'a.b' }))).toBeNull();
  expect(observationWith(draft({ from: 'a.b', to: 'a.c' }), 'live')).toMatchObject({
    instrument: 'tester',
    answer: 'live',
  });
});

test('every terminal has a usual second point, on volts DC where both are extra-low', () => {
  for (const { id, extraLow } of engine.sheet.items.flatMap(({ points }) => points)) {
    const { to, current } = withPoint(engine.sheet, draft({}), id);
    expect([id, to === id]).toEqual([id, false]);
    if (current === 'dc') expect([id, extraLow]).toEqual([id, true]);
    if (to !== null) {
      const asked = askedIn(withPoint(engine.sheet, draft({}), id))!;
      expect([id, engine.problem({ ...asked, answer: 'dead' } as never)]).toEqual([id, null]);
    }
  }
});

/** Supply limits: ESQCR 2002 regulation 27, 230 V +10 % −6 %: 216.2 V to 253 V. */
test('classes of typed volts follow the limits of the supply', () => {
  expect(voltsAnswer(253, 'ac')).toBe('live');
  expect(voltsAnswer(216.2, 'ac')).toBe('live');
  expect(voltsAnswer(254, 'ac')).toBe('high');
  expect(voltsAnswer(112, 'ac')).toBe('between');
  expect(voltsAnswer(0, 'ac')).toBe('dead');
  expect(ohmsAnswer(0.2)).toBe('joined');
  expect(ohmsAnswer(1e9)).toBe('open');
});

test('figures as a page says them', () => {
  expect([voltsText(229.6), voltsText(4.26), voltsText(-0), voltsText(24, 'dc')]).toEqual([
    '230 V',
    '4.3 V',
    '0 V',
    '24 V DC',
  ]);
  expect([ohmsText(0.31), ohmsText(47_000), ohmsText(2.2e6)]).toEqual([
    '0.31 Ω',
    '47 kΩ',
    '2.2 MΩ',
  ]);
});
