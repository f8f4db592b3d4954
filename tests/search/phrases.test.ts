import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { loadEntries } from '../../src/entries/index.ts';
import { namesOf, placedIn } from '../../src/search/build/names.ts';
import { wordsKnownIn } from '../../src/search/build/words.ts';
import { findNames } from '../../src/search/find.ts';
import type { Vocabulary } from '../../src/search/names.ts';

const { entries } = loadEntries('content');

/** What the site's search holds; its words are those of the names and the prose, not of built pages. */
const vocabulary = ((): Vocabulary => {
  const names = namesOf(entries);
  const said = names.map(({ name, aliases, about }) => [name, ...aliases, about].join(' '));
  const prose = Object.values(entries).flatMap((kind) =>
    [...kind.values()].map(({ body }) => body),
  );
  const page = `<main data-pagefind-body>${[...said, ...prose].join(' ')}</main>`;
  return { names, systems: placedIn(entries), words: wordsKnownIn([page]) };
})();

interface Phrase {
  readonly query: string;
  readonly fitting: readonly string[];
}

function phrasesIn(file: string): Phrase[] {
  const text = readFileSync(new URL(`phrases/${file}`, import.meta.url), 'utf8');
  return text
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => {
      const [query = '', fitting = ''] = line.split(/ = ?/);
      return { query, fitting: fitting.split(' ').filter((entry) => entry !== '') };
    });
}

/** Which result, from 0, leads to a fitting entry or a part of it; -1 when none does. */
function placeOf({ query, fitting }: Phrase): number {
  const { results } = findNames({ query, facets: {}, here: '', typing: false }, vocabulary);
  return results.findIndex(({ url }) => fitting.some((entry) => url.startsWith(`${entry}/`)));
}

/** Shares of phrases answered by the first result, and by one of the first three. */
function scoreOf(phrases: readonly Phrase[]): { readonly first: number; readonly three: number } {
  const places = phrases.map(placeOf);
  const share = (most: number) =>
    places.filter((place) => place >= 0 && place < most).length / places.length;
  return { first: share(1), three: share(3) };
}

const LISTS = readdirSync(new URL('phrases/', import.meta.url));

test('every fitting entry of a phrase is there', () => {
  const ids = new Set(vocabulary.names.map(({ url }) => url));
  for (const { fitting } of LISTS.flatMap(phrasesIn))
    for (const entry of fitting) expect(ids).toContain(`${entry}/`);
});

describe('beside the complaint stands', () => {
  const found = (query: string) =>
    findNames({ query, facets: {}, here: '', typing: false }, vocabulary).results;

  test('the device it is about, after it', () => {
    const urls = found('mid posi valve stuck').map(({ url }) => url);
    expect(urls[0]).toBe('symptoms/valve-does-not-open/');
    expect(urls).toContain('devices/mid-position-valve/');
  });

  test.each([
    ['no hw', 'no hot water', 'no dhw'],
    ['rads cold', 'radiators cold'],
    ['cyl cold', 'cylinder cold'],
    ['zv stuck shut', 'zone valve stuck shut'],
  ])('the same for %s as for %s: no entry is before another for its spelling', (...ways) => {
    const [first, ...others] = ways.map((way) => found(way).map(({ url }) => url));
    for (const other of others) expect(other).toEqual(first);
  });

  test('a complaint by its own name, first', () => {
    for (const [id, { data }] of entries.symptoms)
      for (const name of [data.title, data.complaint ?? data.title])
        expect([name, found(name)[0]?.url]).toEqual([name, `symptoms/${id}/`]);
  });

  test('the terminal that a colour lies in', () => {
    expect(found('orange live valve shut').map(({ kind, of }) => [kind, of])).toContainEqual([
      'terminal',
      'Two-port motorised valve',
    ]);
  });

  test('nothing for what the reference does not speak of', () => {
    for (const query of ['xylophone', 'oven not working', 'washing machine leak', 'lawn mower'])
      expect([query, found(query)]).toEqual([query, []]);
  });

  test('nothing for things of other trades, though they share words with this one', () => {
    const foreign = [...phrasesIn('another-hand.txt')].filter(
      ({ fitting }) => fitting.length === 0,
    );
    expect(foreign.length).toBeGreaterThanOrEqual(13);
    const others = ['dimmer buzzing', 'dishwasher leaking'];
    for (const query of [...foreign.map((one) => one.query), ...others])
      expect([query, found(query).map(({ url }) => url)]).toEqual([query, []]);
  });

  test('and what is of this one beside such a word is found', () => {
    for (const [query, url] of [
      ['shower runs cold', 'symptoms/'],
      ['light on boiler flashing', 'symptoms/'],
      ['smoke from the wiring centre', 'devices/wiring-centre-12/'],
      ['inverter pump', 'devices/circulating-pump-electronic/'],
    ] as const)
      expect([query, found(query).some((one) => one.url.startsWith(url))]).toEqual([query, true]);
  });

  test.each(['i can smell gas', 'gas leak', 'co alarm going off'])(
    '%s: how to be safe',
    (query) => {
      expect(found(query)[0]!.url).toBe('procedures/safe-isolation/');
    },
  );
});

describe('the fitting entry is first, or in the first three, of each list by itself:', () => {
  test.each([
    ['tuned.txt', 150],
    ['later.txt', 40],
    ['another-hand.txt', 150],
    ['tried-once.txt', 70],
    ['on-site.txt', 60],
    ['held-out.txt', 40],
    ['fresh.txt', 45],
  ])('%s', (file, least) => {
    const phrases = phrasesIn(file).filter(({ fitting }) => fitting.length > 0);
    expect(phrases.length).toBeGreaterThanOrEqual(least);
    const { first, three } = scoreOf(phrases);
    expect(first).toBeGreaterThanOrEqual(0.85);
    expect(three).toBeGreaterThanOrEqual(0.96);
  });
});
