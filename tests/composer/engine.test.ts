import { describe, expect, it } from 'vitest';
import type { Unsound } from '../../src/composer/soundness.ts';
import { answersFor } from '../../src/composer/specification.ts';
import { wrongTerms } from '../../src/words/index.ts';
import { SPECIFICATIONS } from '../compose/specifications.ts';
import { engine, questions } from './parts.ts';

const COMBI = { boiler: 'combi boiler', call: 'combi-mains-call', relay: 'direct' };
const ONE_ZONE = { ...COMBI, cylinder: 'none', zones: '1', 'valve-1': 'none', time: 'none' };

/** What is said of each option of the question asked after some answers. */
function judged(answers: Record<string, string>): ReadonlyMap<string | null, Unsound | undefined> {
  const composer = engine();
  const { question, answers: kept } = composer.stand(answers);
  return new Map(
    [...composer.judge(question!, kept)].map(({ option, unsound }) => [option, unsound]),
  );
}

describe('only what can still lead somewhere is offered', () => {
  it('the first question refuses nothing', () => {
    const { question, address } = engine().stand({});
    expect(question!.id).toBe('boiler');
    expect(question!.refused).toEqual({});
    expect(address).toBeNull();
  });

  it('a control that sends its own live has no place behind a clock', () => {
    const { question } = engine().stand({ ...ONE_ZONE, time: 'programmer' });
    expect(question!.id).toBe('control-1');
    expect(question!.refused).toEqual({
      'receiver-mains-switched':
        'a contact joined inside to its own live has no terminal for another',
      'room-stat-mains': 'a contact joined inside to its own live has no terminal for another',
    });
  });

  it('one shared valve does not serve two circuits of heating', () => {
    const { question } = engine().stand({ ...COMBI, cylinder: 'plain', zones: '2' });
    expect(question!.id).toBe('shared');
    expect(question!.refused['mid-position-valve']).toBe(
      'a shared valve serves heating and hot water, one circuit of each',
    );
    expect(question!.refused.each).toBeUndefined();
  });

  it('a time switch has no contact for hot water', () => {
    const { question } = engine().stand({
      ...COMBI,
      cylinder: 'plain',
      zones: '1',
      shared: 'each',
      'valve-1': 'two-port-valve',
      'valve-water': 'two-port-valve',
    });
    expect(question!.refused).toEqual({
      'time-switch': 'the clock or control has no contact for this service',
    });
  });

  it('an answer taken back drops what no longer goes with it, and asks that again', () => {
    const composer = engine();
    const done = composer.stand({ ...ONE_ZONE, 'control-1': 'room-stat-mains' });
    const { question, answers } = composer.stand({ ...done.answers, time: 'programmer' });
    expect(question!.id).toBe('control-1');
    expect(answers.time).toBe('programmer');
    expect(answers.cylinder).toBe('none');
  });
});

describe('what is not in order is said before it is chosen', () => {
  it('mains on the pair of a boiler (BS 7671 section 414, from memory)', () => {
    const said = judged({ ...ONE_ZONE, call: 'combi-volt-free' });
    expect(said.get('room-stat-mains')).toEqual({
      standard: 'No mains reaches an extra-low-voltage terminal',
      found: expect.stringMatching(/^call 1 at the boiler E1 is made for extra-low voltage/),
    });
    expect(said.get('room-stat-volt-free')).toBeUndefined();
    expect(said.has('room-stat-volt-free')).toBe(true);
  });

  it('a frost pair that lights a boiler past its full reservoir, in plain words', () => {
    const said = judged({
      ...ONE_ZONE,
      'control-1': 'room-stat-mains',
      'with-condensate-pump': 'condensate-pump',
    });
    expect(said.get('none')).toBeUndefined();
    expect(said.get('frost-pair~fed from the live to stat')!.found).toMatch(
      /^“Boiler firing” at the boiler E1 with the overflow switch of the condensate pump M1 open, when “Room asks for heat” at the room stat B1/,
    );
  });

  it('is said once, where all that is left is not in order', () => {
    const said = judged({
      ...ONE_ZONE,
      call: 'combi-volt-free',
      'control-1': 'room-stat-mains',
    });
    expect([...said.keys()]).toEqual([null]);
  });
});

describe('an address', () => {
  it('opens with its questions answered', () => {
    const opened = engine().open('v=1&heat=combi-mains-call&heating=wireless-receiver');
    expect('answers' in opened && opened.answers).toMatchObject({
      boiler: 'combi boiler',
      'control-1': 'wireless-receiver',
      'with-condensate-pump': 'none',
      supply: 'supply-circuit',
    });
  });

  it('that is damaged, of another version, or has no circuit is told why and what is allowed', () => {
    const { open } = { open: (address: string) => engine().open(address) };
    expect(open('v=1&heat=combi-mains-cal&heating=wireless-receiver')).toEqual({
      wrong: '“combi-mains-cal” is no part that can stand here.',
      allowed: expect.arrayContaining(['combi-mains-call', 'system-boiler']),
    });
    expect(open('v=9&heat=combi-mains-call')).toEqual({
      wrong: 'The address is of another version.',
      allowed: ['1'],
    });
    expect(open('v=1&heat=combi-mains-call&heating=&time=')).toHaveProperty('wrong');
    expect(open('v=1&heat=combi-mains-call&heating=')).toEqual({
      wrong: 'These parts have no circuit: a service with neither control nor clock.',
      allowed: [],
    });
  });

  it('of what is composed comes back as it was', () => {
    const composer = engine();
    const { usual } = composer.stand({ ...ONE_ZONE, 'control-1': 'wireless-receiver' });
    const { address, question, answered } = composer.stand(usual!);
    expect(question).toBeNull();
    expect(address).toBe('v=1&heat=combi-mains-call&heating=wireless-receiver');
    expect(answered.map(({ title }) => title)).toContain('Wireless receiver');
    expect(composer.open(address!)).toMatchObject({ answers: usual });
  });
});

it('every question and every arrangement is said in the trade’s words', () => {
  const composer = engine();
  const said = Object.values(SPECIFICATIONS).flatMap((specification) => {
    const answers = answersFor(questions(), specification)!;
    const asked = Object.keys(answers).flatMap((at) => {
      const { question } = composer.stand(answers, at);
      const { asks, about, options, refused } = question!;
      const ways = options.flatMap(({ title, cue }) => [title, cue]);
      return [asks, about, ...ways, ...Object.values(refused)];
    });
    const { title, summary, cautions, notes, modes, places } = composer.work(specification);
    const seen = modes.flatMap((mode) => [
      mode.title,
      mode.summary,
      mode.bring,
      ...mode.seen.map(({ text }) => text),
    ]);
    const read = places.flatMap((place) => [place.title, place.place, ...place.why]);
    return [...asked, title, summary, ...cautions, ...notes, ...seen, ...read];
  });
  expect(said.length).toBeGreaterThan(1000);
  expect(said.flatMap(wrongTerms)).toEqual([]);
});

describe('a composed arrangement worked out', () => {
  const composer = engine();
  const opened = composer.open('v=1&heat=combi-mains-call&heating=room-stat-two-wire');
  const view = composer.work('specification' in opened ? opened.specification : ({} as never));
  const at = (from: string, to: string) =>
    view.places.flatMap(({ rows }) => rows).find((row) => row.from === from && row.to === to)!
      .values;

  it('reads the supply at the boiler in every mode but isolated', () => {
    const [isolated] = view.modes.flatMap(({ id }, m) => (id === 'isolated' ? [m] : []));
    const looks = at('E1.L', 'E1.N').map(({ shown, when }) => [shown.look, when.split(' ')]);
    const dead = looks.filter(([look]) => look === 'dead').map(([, when]) => when);
    expect(dead.flat()).toContain(`m${isolated}`);
    expect(looks.some(([look, when]) => look === 'live' && when!.includes('m0'))).toBe(true);
  });

  it('has every standard judged, its parts drawn, and agrees with what must happen', () => {
    expect(view.verdicts.filter(({ state }) => state === 'breached')).toEqual([]);
    expect(view.missed).toEqual([]);
    expect(composer.draw('narrow')).toMatch(/^<svg [^>]*class="circuit narrow"/);
    let last: ReturnType<ReturnType<typeof composer.agree>['next']>;
    const steps = composer.agree();
    do last = steps.next();
    while (!last.done);
    expect(last.value).toEqual({ tried: expect.any(Number), of: expect.any(Number) });
    expect(last.value.tried).toBe(last.value.of);
    expect(last.value.tried).toBeGreaterThan(view.modes.length);
  });

  it('is plain data: a worker sends it', () => {
    expect(structuredClone(view)).toEqual(view);
    expect(JSON.parse(JSON.stringify(view))).toEqual(view);
  });

  it('that misses the table says what, and when', () => {
    const other = engine();
    // Two valves without end switches lie on one core: each zone opens the other.
    const read = other.open(
      'v=1&heat=combi-switched-live&heating=room-stat-wired;two-port-valve-no-switch&heating=room-stat-wired;two-port-valve-no-switch',
    );
    const { missed } = other.work('specification' in read ? read.specification : ({} as never));
    expect(missed).toContainEqual({
      mode: 'Heating 1 only',
      what: 'a valve opens though it must not',
    });
    let last: ReturnType<ReturnType<typeof other.agree>['next']>;
    const steps = other.agree();
    do last = steps.next();
    while (!last.done);
    expect('miss' in last.value && last.value.miss).toMatchObject({
      what: 'a valve opens though it must not',
    });
  });
});
