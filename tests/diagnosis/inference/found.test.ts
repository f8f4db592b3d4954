import { expect, test } from 'vitest';
import { FOUND_SHARE } from '../../../src/diagnosis/inference/found.ts';
import {
  type Case,
  next,
  type Observation,
  observe,
  openCase,
  rank,
  verdict,
} from '../../../src/diagnosis/inference/index.ts';
import { ORDERED_HISTORIES } from '../../../src/diagnosis/sequences/index.ts';
import { certaintyWord } from '../../../src/published/index.ts';
import { systemFiles } from '../../support/content.ts';
import { detectable, historyOf, job, live, look, modelOf } from './jobs.ts';

const ID = 'combi-two-wire';
const reporting = (...observations: Observation[]): Case =>
  observations.reduce(observe, openCase(modelOf(ID)));

const fuse = (answer: 'intact' | 'blown'): Observation => ({
  kind: 'fuse',
  mode: 'isolated',
  branch: 'Q1/fuse',
  answer,
});
const dark = look('standby', 'E1.display', false);
const calling = [
  look('heating', 'B1.calling', true),
  look('heating', 'E1.display', true),
  look('heating', 'E1.burner', false),
];
const back = (answer: 'live' | 'dead') => live('heating', 'E1.call return', 'E1.N', answer);

test('a complaint alone finds nothing, however likely its commonest cause', () => {
  for (const open of [reporting(dark), reporting(...calling)])
    expect(verdict(open)).toMatchObject({ kind: 'fits', found: null });
});

// Low pressure, no gas, a frozen pipe and a lockout look like a failed boiler (common practice, no source).
const wetSide = [
  ...['E1.pressure', 'E1.gas', 'E1.condensate pipe'].map((one) => look('heating', one, true)),
  look('heating', 'E1.lockout', false),
];

test('a call that reaches a boiler which does not fire finds the boiler, once water, gas and lockout are looked at; one that does not, nothing', () => {
  expect(verdict(reporting(...calling, back('live')))).toMatchObject({ found: null });
  const { kind, found } = verdict(reporting(...calling, ...wetSide, back('live')));
  expect([kind, found!.key]).toEqual(['found', 'boiler E1']);
  expect(['very likely', 'virtually certain']).toContain(certaintyWord(found!.share));
  expect(verdict(reporting(...calling, ...wetSide, back('dead')))).toMatchObject({ found: null });
});

test('a blown fuse alone is not the cause found: what blew it may stand behind it', () => {
  const open = reporting(dark, fuse('blown'));
  expect(rank(open).repairs[0]!.key).toBe('restore Q1/fuse');
  expect(verdict(open)).toMatchObject({ kind: 'fits', found: null });
});

test('certainty by the prior alone finds nothing: its rivals answer every test alike', () => {
  // The call is shown, its feed live and its return dead: contact or cable, nothing parts them.
  const open = reporting(
    look('heating', 'B1.calling', true),
    look('heating', 'E1.burner', false),
    live('heating', 'E1.call feed', 'E1.N', 'live'),
    live('heating', 'E1.call return', 'E1.N', 'dead'),
  );
  expect(verdict(open)).toMatchObject({ kind: 'fits', found: null });
});

test('nothing is called found that a later report speaks against', () => {
  const open = reporting(...calling, back('live'), look('heating', 'E1.burner', true));
  expect(verdict(open).kind).not.toBe('found');
});

test('what is found is at least very likely, and what is very likely is not always found', () => {
  const model = modelOf(ID);
  let found = 0;
  for (const fault of detectable(model).filter((_, i) => i % 4 === 0)) {
    const own = modelOf(ID, historyOf(fault));
    const open = job(own, fault.row!);
    const said = verdict(open);
    if (!said.found) continue;
    found++;
    expect(said.found).toBe(rank(open).repairs[0]);
    expect(said.found.share).toBeGreaterThan(0.9);
    expect(said.against).toEqual([]);
  }
  expect(found).toBeGreaterThan(3);
});

// A boiler is decided at its own terminals (common practice, no source).
test.each(systemFiles())(
  '%s: a job hands a dark boiler over with its supply read at its strip',
  (id) => {
    const all = modelOf(id);
    const truth = all.singles.find((one) => one.id === 'E1:nothing lit')!;
    for (const history of ORDERED_HISTORIES) {
      const model = modelOf(id, history);
      const { observations } = job(model, model.singles[all.placeOf(truth)]!.row!);
      const live = observations.filter(
        (one) => one.kind === 'live' && one.from.startsWith('E1.') && one.answer === 'live',
      );
      expect(live, history).not.toEqual([]);
    }
  },
);

// Where hands were in the boxes, its own box is compared before a part is replaced (common
// practice, no source).
test('since somebody worked on it a part is condemned after its own box is compared', () => {
  const model = modelOf('combi-wireless', 'since work');
  const truth = model.singles.find((one) => one.id === 'E1:nothing lit')!;
  const { observations } = job(model, truth.row!);
  expect(observations).toContainEqual(
    expect.objectContaining({ id: 'compare:E1/wiring cover', answer: 'nothing' }),
  );
});

test('a boiler is not found by looks, however sure, before its supply is read', () => {
  const model = modelOf('combi-wireless');
  const truth = model.singles.find((one) => one.id === 'E1:nothing lit')!;
  const whole = job(model, truth.row!);
  const proving = whole.observations.findIndex(
    (one) => one.kind === 'live' && one.from.startsWith('E1.') && one.answer === 'live',
  );
  const told = [...Array(proving).keys()].map((count) => {
    const before = { ...whole, observations: whole.observations.slice(0, count) };
    const [top] = rank(before).repairs;
    return { sure: top!.key === 'boiler E1' && top!.share > FOUND_SHARE, ...verdict(before) };
  });
  expect(told.some(({ sure }) => sure)).toBe(true);
  expect(told.filter(({ found }) => found)).toEqual([]);
  expect(verdict(whole).found?.key).toBe('boiler E1');
});

test('where its box cannot be compared, a part is read all the same', () => {
  const model = modelOf('combi-wireless', 'since work');
  const truth = model.singles.find((one) => one.id === 'E1:nothing lit')!;
  const whole = job(model, truth.row!);
  const comparing = whole.observations.findIndex(
    (one) => one.kind === 'act' && one.id === 'compare:E1/wiring cover',
  );
  const without = new Set(['compare:E1/wiring cover']);
  const open = { ...whole, observations: whole.observations.slice(0, comparing), without };
  expect(next(open)?.test).toMatchObject({ kind: 'live', place: 'E1/wiring cover' });
});
