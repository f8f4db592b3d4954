import { describe, expect, test } from 'vitest';
import { type Asked, find, findNames, type PageHit } from '../../src/search/find.ts';
import { summaryLine, withSearch } from '../../src/search/wording.ts';
import { VOCABULARY } from './reference-site.ts';

const asked = (query: string, more: Partial<Asked> = {}): Asked => ({
  query,
  facets: {},
  here: '',
  typing: false,
  ...more,
});
const hit = (url: string, text: string, sections: PageHit['sections'] = []): PageHit => ({
  url,
  title: url,
  kind: 'procedure',
  text,
  sections,
});
const pages = (...hits: PageHit[]) => {
  const queries: string[] = [];
  const searchPages = async (query: string) => {
    queries.push(query);
    return hits;
  };
  return { queries, searchPages };
};

describe('an answer', () => {
  test('is names first, then pages whose text holds the words, each page once', async () => {
    const { searchPages } = pages(
      hit('devices/combi/', 'The call feed is live.'),
      hit('procedures/proving/', 'Read at the call feed.'),
      hit('procedures/other/', 'Nothing of the kind: feeds of another sort.'),
    );
    const { results, nearest } = await find(asked('call feed'), VOCABULARY, searchPages);
    expect(results.map(({ url }) => url)).toEqual([
      'devices/combi/#terminal-call-feed',
      'procedures/proving/',
    ]);
    expect(nearest).toEqual([]);
  });

  test('has pages that hold the words side by side before those that hold them apart', async () => {
    const { searchPages } = pages(
      hit('procedures/apart/', 'The overrun of a circulating pump.'),
      hit('procedures/together/', 'Pump, overrun and fan.'),
    );
    const { results } = await find(asked('pump overrun'), VOCABULARY, searchPages);
    expect(results.map(({ url }) => url)).toEqual(['procedures/together/', 'procedures/apart/']);
  });

  test('leads to the part of a page that holds the words', async () => {
    const { searchPages } = pages(
      hit('procedures/proving/', 'First. Use the proving unit.', [
        { url: 'procedures/proving/', text: 'First: a unit for proving.' },
        { url: 'procedures/proving/#unit', text: 'Use the proving unit.' },
      ]),
    );
    const { results } = await find(asked('proving unit'), VOCABULARY, searchPages);
    expect(results.map(({ url }) => url)).toEqual(['procedures/proving/#unit']);
  });

  test('to a mistyped word is for the word meant, and the index is asked for that', async () => {
    const { queries, searchPages } = pages(hit('devices/thermostat/', 'A thermostat opens.'));
    const found = await find(asked('thermastat'), VOCABULARY, searchPages);
    expect(queries).toEqual(['thermostat']);
    expect(found.results.map(({ url }) => url)).toEqual(['devices/thermostat/']);
    expect(summaryLine('thermastat', found)).toBe(
      'No entry holds “thermastat”; shown for “thermostat”. 1 result.',
    );
  });

  test('is none where no text holds the words, whatever the index gives', async () => {
    const { searchPages } = pages(hit('devices/thermostat/', 'A thermostat opens.'));
    const found = await find(asked('safe insulation tape'), VOCABULARY, searchPages);
    expect(found.results).toEqual([]);
    expect(found.nearest).toHaveLength(4);
    expect(found.nearest[0]!.title).toBe('Safe isolation');
    expect(summaryLine('safe insulation tape', found)).toBe(
      'No entry holds “safe insulation tape”; nearest: Safe isolation.',
    );
  });

  test('of names is there before the pages are searched', () => {
    expect(findNames(asked('E1.call feed'), VOCABULARY).results[0]!.title).toBe('E1.call feed');
    expect(findNames(asked('HW'), VOCABULARY).results[0]!.title).toBe('Hot water');
  });

  test('to nothing asked is nothing, or all within the facets', async () => {
    const { queries, searchPages } = pages();
    expect((await find(asked(' '), VOCABULARY, searchPages)).results).toEqual([]);
    const facets = { kind: ['system'], feature: [] };
    const found = await find(asked('', { facets }), VOCABULARY, searchPages);
    expect(found.results.map(({ kind }) => kind)).toEqual(['system', 'system']);
    expect(summaryLine('', found)).toBe('2 results.');
    expect(queries).toEqual([]);
  });

  test('within facets holds no items of systems outside them', async () => {
    const { searchPages } = pages();
    const facets = { kind: ['word'] };
    const found = await find(asked('E1.call feed', { facets }), VOCABULARY, searchPages);
    expect(found.results).toEqual([]);
  });
});

test('recent searches: the newest first, the same words once, six at most', () => {
  expect(withSearch([], ' call feed ')).toEqual(['call feed']);
  expect(withSearch(['SL', 'call feed'], 'Call-Feed')).toEqual(['Call-Feed', 'SL']);
  expect(withSearch(['a'], '  ')).toEqual(['a']);
  expect(withSearch(['1', '2', '3', '4', '5', '6'], '7')).toEqual(['7', '1', '2', '3', '4', '5']);
});
