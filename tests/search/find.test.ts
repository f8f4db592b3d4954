import { describe, expect, test } from 'vitest';
import { type Asked, find, findNames, type PageHit } from '../../src/search/find.ts';
import type { Name } from '../../src/search/names.ts';
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
    // The system has a room stat, which is a thermostat; the page says the word.
    expect(found.results.map(({ url }) => url)).toEqual([
      'systems/combi-two-wire/',
      'devices/thermostat/',
    ]);
    expect(summaryLine('thermastat', found)).toBe(
      'No entry holds “thermastat”; shown for “thermostat”. 2 results.',
    );
  });

  test('is none where no text holds the words, whatever the index gives', async () => {
    const { searchPages } = pages(hit('devices/thermostat/', 'A thermostat opens.'));
    const found = await find(asked('copper insulation tape'), VOCABULARY, searchPages);
    expect(found.results).toEqual([]);
    expect(found.nearest).toEqual([]);
    expect(summaryLine('copper insulation tape', found)).toBe(
      'Nothing for “copper insulation tape”.',
    );
  });

  test('that is none has the complaints about the same thing beside it, and no others', async () => {
    const complaint = (name: string): Name => ({
      name,
      kind: 'symptom',
      url: `symptoms/${name}/`,
      aliases: [],
      about: '',
    });
    const names = [complaint('Pump runs all the time'), complaint('Boiler in lockout')];
    const { searchPages } = pages();
    const nearest = async (query: string) => {
      const found = await find(asked(query), { ...VOCABULARY, names }, searchPages);
      expect([query, found.results]).toEqual([query, []]);
      return found;
    };
    const found = await nearest('turquoise pump gasket perished');
    expect(found.nearest.map(({ title }) => title)).toEqual(['Pump runs all the time']);
    expect(summaryLine('turquoise pump gasket perished', found)).toBe(
      'Nothing for “turquoise pump gasket perished”. Nearest:',
    );
    expect((await nearest('oven not working')).nearest).toEqual([]);
  });

  test('to words that may be left out is asked of the pages without them', async () => {
    const { queries, searchPages } = pages(hit('procedures/proving/', 'A seal perished.'));
    const found = await find(asked('my seal has perished'), VOCABULARY, searchPages);
    expect(queries).toEqual(['seal perished']);
    expect(found.results.map(({ url }) => url)).toEqual(['procedures/proving/']);
  });

  test('to ten thousand letters is that it is too long, and nothing is searched for', async () => {
    const { queries, searchPages } = pages();
    const query = 'a'.repeat(10_000);
    const found = await find(asked(query), VOCABULARY, searchPages);
    expect(found.results).toEqual([]);
    expect(queries).toEqual([]);
    expect(summaryLine(query, found)).toBe('That is 10,000 letters; a search has 200 at most.');
    expect(withSearch(['pump'], query)).toEqual(['pump']);
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
