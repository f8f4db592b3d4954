import { describe, expect, test } from 'vitest';
import type { Name } from '../../src/search/names.ts';
import { wordsShared } from '../../src/search/words-index.ts';

const entry = (id: string, name: string, more: Partial<Name> = {}): Name => ({
  name,
  kind: 'device',
  url: `devices/${id}/`,
  aliases: [],
  about: '',
  ...more,
});

const names: readonly Name[] = [
  entry('pump', 'Pump', { aliases: ['circulator'], text: 'head speed bearings seized' }),
  entry('lift', 'Condensate pump', { about: 'Lifts water to a drain.', text: 'float reservoir' }),
  entry('valve', 'Motorised valve', { text: 'the head is off the pump side' }),
  entry('pump-L', 'L', { kind: 'terminal', of: 'Pump', about: 'Live of the pump' }),
];
const found = (query: string) => [...wordsShared(query, names).keys()];

describe('entries that hold the words of a query', () => {
  test('a word in the name counts more than one in the prose', () => {
    expect(found('pump')).toEqual(['devices/pump/', 'devices/lift/', 'devices/valve/']);
  });

  test('endings are left aside, and so are words that say nothing', () => {
    expect(found('the pumps are seizing')[0]).toBe('devices/pump/');
  });

  test('less than half of the words is not enough', () => {
    expect(found('pump speed dial knob trim')).toEqual([]);
    expect(found('pump speed dial')).toEqual(['devices/pump/']);
  });

  test('the best of them holding every word has 1', () => {
    expect(wordsShared('condensate pump', names).get('devices/lift/')).toBe(1);
    expect(wordsShared('condensate pump trim', names).get('devices/lift/')).toBeCloseTo(2 / 3);
  });

  test('nothing asked finds nothing', () => {
    expect([found(''), found('the of')]).toEqual([[], []]);
  });
});
