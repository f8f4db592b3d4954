import { describe, expect, test } from 'vitest';
import { namesInFacets, rankNames, thinned } from '../../src/search/rank.ts';
import { findReference } from '../../src/search/reference.ts';
import { VOCABULARY } from './reference-site.ts';

const { names } = VOCABULARY;
const ranked = (query: string, options = {}) =>
  rankNames(query, { names }, options).map(({ url }) => url);

describe('names', () => {
  test('that are what was asked come first: the word that explains it, then terminals so marked', () => {
    expect(ranked('SL')).toEqual([
      'glossary/switched-live/',
      'devices/system-boiler/#terminal-sl',
      'devices/combi/#terminal-call-return',
    ]);
    expect(ranked('s/l')[0]).toBe('glossary/switched-live/');
  });

  test.each([
    ['HW', 'glossary/hot-water/'],
    ['call feed', 'devices/combi/#terminal-call-feed'],
    ['Call-Feed', 'devices/combi/#terminal-call-feed'],
    ['callfeed', 'devices/combi/#terminal-call-feed'],
    ['room stat', 'systems/combi-two-wire/'],
    ['combination', 'devices/combi/'],
    ['two wire', 'systems/combi-two-wire/'],
    ['safe iso', 'procedures/safe-isolation/'],
    ['boiler call feed', 'devices/combi/#terminal-call-feed'],
  ])('%s', (query, first) => {
    expect(ranked(query)[0]).toBe(first);
  });

  test('an abbreviation is no part of a longer word', () => {
    expect(ranked('HW')).toEqual(['glossary/hot-water/']);
    expect(ranked('ot')).toEqual([]);
  });

  test('terminals of the page the reader is on come before others as good', () => {
    expect(ranked('N')[0]).toBe('devices/combi/#terminal-N');
    expect(ranked('N', { here: 'devices/system-boiler/' })[0]).toBe(
      'devices/system-boiler/#terminal-n',
    );
  });

  test('say why they were found', () => {
    const [first] = rankNames('switch wire', { names });
    expect(first).toEqual({
      title: 'Switched live',
      kind: 'word',
      url: 'glossary/switched-live/',
      excerpt: [
        { text: 'Also called ', marked: false },
        { text: 'switch wire.', marked: true },
        { text: ' A core that is live only while a contact is closed.', marked: false },
      ],
    });
  });

  test('of one title are thinned, other results are not', () => {
    const all = rankNames('L', { names });
    expect(all.filter(({ title }) => title === 'L')).toHaveLength(2);
    const thin = thinned(all, 1);
    expect(thin.filter(({ title }) => title === 'L')).toHaveLength(1);
    expect(thin.length).toBe(all.length - 1);
  });

  test('nothing asked, nothing found', () => {
    expect(ranked('')).toEqual([]);
    expect(ranked(' – ')).toEqual([]);
  });
});

describe('facets', () => {
  test('narrow names, any of some, all of the features', () => {
    expect(ranked('boiler', { facets: { kind: ['system'] } }).sort()).toEqual([
      'systems/combi-two-wire/',
      'systems/system-boiler-two-port/',
    ]);
    expect(ranked('boiler', { facets: { arrangement: ['combi', 'heat-only'] } })).toEqual([
      'systems/combi-two-wire/',
    ]);
    const both = { feature: ['two-port valves', 'wiring centre'] };
    expect(ranked('boiler', { facets: both })).toEqual(['systems/system-boiler-two-port/']);
    const more = { feature: ['two-port valves', 'pump overrun'] };
    expect(ranked('boiler', { facets: more })).toEqual([]);
  });

  test('list names without a query', () => {
    expect(namesInFacets(names, { kind: ['word'] }).map(({ title }) => title)).toEqual([
      'Hot water',
      'Switched live',
    ]);
  });
});

describe('references', () => {
  const found = (query: string, here?: string) => findReference(query, VOCABULARY, here);

  test.each(['E1.call feed', 'e1 call feed', 'E1:CALL FEED', ' E1.callfeed', 'E1.LS', 'E1.call f'])(
    '%s',
    (query) => {
      expect(found(query)).toEqual([
        {
          title: 'E1.call feed',
          kind: 'terminal',
          url: 'systems/combi-two-wire/readings/#terminal-E1-call-feed',
          of: 'Combi boiler with two-wire room control',
          excerpt: [{ text: 'Live out to the room control. Kitchen wall', marked: false }],
        },
      ]);
    },
  );

  test('in every system, the one the reader is on first', () => {
    const systems = (here?: string) => found('E1.N', here).map(({ url }) => url.split('#')[0]);
    expect(systems()).toEqual([
      'systems/combi-two-wire/readings/',
      'systems/system-boiler-two-port/readings/',
    ]);
    expect(systems('systems/system-boiler-two-port/')).toEqual([
      'systems/system-boiler-two-port/readings/',
      'systems/combi-two-wire/readings/',
    ]);
  });

  test('an item alone leads to its first terminal', () => {
    expect(found('e1').map(({ title, kind, url }) => [title, kind, url])).toEqual([
      ['E1, Combi boiler, mains call', 'item', 'systems/combi-two-wire/readings/#terminal-E1-L'],
      ['E1, System boiler', 'item', 'systems/system-boiler-two-port/readings/#terminal-E1-L'],
    ]);
  });

  test.each(['E9', 'E1.gas', 'call feed', 'SL', '230', 'E1x'])('%s is none', (query) => {
    expect(found(query)).toEqual([]);
  });
});
