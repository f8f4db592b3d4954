import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { meaningOf } from '../../src/search/meaning.ts';
import { DENIED, OTHERS, PARTS, STATES } from '../../src/search/trade-words.ts';

const said = (phrase: string) => [...meaningOf(phrase).keys()];

describe('read alike: the trade and its customers', () => {
  test.each([
    ['no hw', 'no hot water'],
    ['rads cold', 'the radiators are stone cold'],
    ['mid posi valve stuck', 'three-port valve seized'],
    ['zone valve wont open', 'two-port valve does not open'],
    ['ch stuck on', 'my heating never stops'],
    ['cant turn the heating off', 'heating won’t turn off'],
    ['heating isn’t working', 'heating not working'],
    ['prog dead', 'programmer is dead'],
    ['90v', '90 volts'],
    ['s/l', 'switched live'],
  ])('%s, %s', (a, b) => {
    expect(said(a).sort()).toEqual(said(b).sort());
  });
});

describe('told apart: what is out of order and what works', () => {
  test('by the part each state is said of', () => {
    expect(said('hw ok no ch')).toEqual(
      expect.arrayContaining(['hot water is works', 'heating is none']),
    );
    expect(said('no hw heating ok')).toEqual(
      expect.arrayContaining(['hot water is none', 'heating is works']),
    );
    expect(said('no hw heating ok')).not.toContain('heating is none');
  });

  test('live from where the glossary says it is', () => {
    const glossary = readFileSync('content/glossary/reading-classes.mdx', 'utf8');
    expect(glossary).toContain('live 204.7 to 253 V');
    expect(said('204 V')).toContain('part part volts');
    expect(said('205 V')).not.toContain('part part volts');
  });

  test('a voltage by its size; from memory: extra-low is up to 50 V, IEC 61140', () => {
    expect(said('90 V')).toContain('part part volts');
    expect(said('24 V')).toContain('part extra-low voltage');
    expect(said('24 V')).not.toContain('part part volts');
    expect(said('230 V')).not.toContain('part part volts');
  });
});

test('words that may be left out say nothing', () => {
  expect(said('what is it with my the')).toEqual([]);
  expect(said('')).toEqual([]);
});

describe('the words of the trade', () => {
  const all = [...PARTS, ...STATES, ...OTHERS];

  test('have one meaning each', () => {
    const ways = all.flatMap((word) => word.said);
    expect(ways.filter((way, at) => ways.indexOf(way) !== at)).toEqual([]);
    const meanings = all.map(({ means }) => means);
    expect(new Set(meanings).size).toBe(meanings.length);
  });

  test('are wider only by meanings that there are', () => {
    const meanings = new Set(all.map(({ means }) => means));
    for (const { means, also } of all)
      for (const wider of also)
        expect([means, wider, meanings.has(wider)]).toEqual([means, wider, true]);
    const states = STATES.map(({ means }) => means);
    for (const [state, opposite] of Object.entries(DENIED))
      expect(states).toEqual(expect.arrayContaining([state, opposite]));
  });
});
