import { describe, expect, test } from 'vitest';
import { excerpt, holds, joined, spaced, wordsOf } from '../../src/search/text.ts';

test('what is typed and what is written compare by letters and digits alone', () => {
  expect(spaced(' Two-Wire, S/L  ')).toBe('two wire s l');
  expect(joined('S/L')).toBe(joined('sl'));
  expect(joined('E1.call feed')).toBe('e1callfeed');
  expect(wordsOf('Für Ångström’s µF')).toEqual(['fur', 'angstrom', 's', 'μf']);
  expect(wordsOf(' – ')).toEqual([]);
});

describe('a text holds a query', () => {
  const text = 'The slope of the valves; SL goes to a wired thermostat.';
  test.each([
    ['SL', true],
    ['sl', true],
    ['NC', false],
    ['valve', true],
    ['valves', true],
    ['opening', false],
    ['thermostats', true],
    ['thermostatic', true],
    ['thermo', true],
    ['stat', false],
    ['valve thermostat', true],
    ['valve boiler', false],
    ['', true],
  ])('%j: %s', (query, answer) => {
    expect(holds(text, query)).toBe(answer);
  });

  test('but not by the start of a word that is longer by more than its ending, for two letters', () => {
    expect(holds('slope slow', 'SL')).toBe(false);
  });
});

describe('an excerpt', () => {
  const words = Array.from({ length: 60 }, (_, i) => `w${i}`);
  const text = [...words.slice(0, 30), 'call', 'feed,', ...words.slice(30)].join(' ');
  const shown = (query: string, length?: number) => excerpt(text, query, length);

  test('begins a few words before what was searched for, and marks it', () => {
    const segments = shown('call feed', 10);
    expect(segments).toEqual([
      { text: '… w26 w27 w28 w29 ', marked: false },
      { text: 'call feed,', marked: true },
      { text: ' w30 w31 w32 w33 …', marked: false },
    ]);
  });

  test('of a text without the words is its beginning', () => {
    expect(shown('nothing', 3)).toEqual([{ text: 'w0 w1 w2 …', marked: false }]);
    expect(excerpt('', 'nothing')).toEqual([]);
  });

  test('chooses the stretch with most of the words', () => {
    const marked = excerpt(`feed ${words.join(' ')} call feed`, 'call feed', 8)
      .filter((segment) => segment.marked)
      .map((segment) => segment.text);
    expect(marked).toEqual(['call feed']);
  });

  test('prefers the word itself to one that begins so', () => {
    const marked = excerpt(`called feedback ${words.join(' ')} call feed`, 'call feed', 8)
      .filter((segment) => segment.marked)
      .map((segment) => segment.text);
    expect(marked).toEqual(['call feed']);
  });

  test('shows a short text whole, as it is written', () => {
    const whole = excerpt('Lock off  & <prove> dead', 'dead').map((segment) => segment.text);
    expect(whole.join('')).toBe('Lock off & <prove> dead');
  });
});
