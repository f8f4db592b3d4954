import { describe, expect, test } from 'vitest';
import { correct } from '../../src/search/correct.ts';
import { VOCABULARY } from './reference-site.ts';

const { words } = VOCABULARY;
const put = (query: string, typing = false) => correct(query, words, typing)?.query;

describe('a mistyped word is put right', () => {
  test.each([
    ['thermastat', 'thermostat'],
    ['Thermostta', 'thermostat'],
    ['THERMASTAT', 'thermostat'],
    ['programer', 'programmer'],
    ['condensite', 'condensate'],
    ['nuetral', 'neutral'],
    ['boilr', 'boiler'],
    ['room thermastat wiring', 'room thermostat wiring'],
  ])('%s', (typed, meant) => {
    expect(put(typed)).toBe(meant);
  });

  test('and said', () => {
    expect(correct('polarty of nuetral', words)).toEqual({
      query: 'polarity of neutral',
      changes: [
        ['polarty', 'polarity'],
        ['nuetral', 'neutral'],
      ],
    });
  });
});

describe('left as it is:', () => {
  test.each([
    ['a code', 'E1'],
    ['an abbreviation', 'SL'],
    ['a cable', 'W2'],
    ['a word with digits', 'boilr2'],
    ['a word of four letters, one from a known one', 'valv'],
    ['a reference', 'E1.call feed'],
    ['a known word', 'thermostat'],
    ['a known word with an ending', 'valves'],
    ['the beginning of a known word', 'thermo'],
    ['a word that is like no other', 'xylophone'],
    ['nothing', '  '],
  ])('%s, %j', (_, query) => {
    expect(put(query)).toBeUndefined();
  });

  test('a word two edits from a known one, unless it is long', () => {
    expect(put('vavle')).toBe('valve');
    expect(put('vlaevs')).toBeUndefined();
    expect(put('condansite')).toBe('condensate');
  });
});

describe('while a word is typed', () => {
  test('its beginning is enough, of the last word alone', () => {
    expect(put('thermas', true)).toBe('thermostat');
    expect(put('thermas')).toBe('thermal');
    expect(put('condans valve', true)).toBeUndefined();
    expect(put('valve condans', true)).toBe('valve condensate');
  });

  test('among words as near, the most used is meant', () => {
    expect(correct('contral', ['control', 'central'])?.query).toBe('control');
    expect(correct('contral', ['central', 'control'])?.query).toBe('central');
  });
});
