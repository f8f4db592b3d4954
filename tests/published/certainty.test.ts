import { expect, test } from 'vitest';
import {
  CERTAINTY_WORDS,
  certaintyText,
  certaintyWord,
  leadText,
  percentText,
} from '../../src/published/index.ts';

// IPCC AR4 (2007), Working Group II, front matter F: > 99 %, 90 to 99, 66 to 90, 33 to 66,
// 10 to 33, 1 to 10, < 1 % probability.
test.each([
  [1, 'virtually certain'],
  [0.991, 'virtually certain'],
  [0.99, 'very likely'],
  [0.95, 'very likely'],
  [0.9, 'likely'],
  [0.7, 'likely'],
  [0.66, 'about as likely as not'],
  [0.5, 'about as likely as not'],
  [0.33, 'about as likely as not'],
  [0.2, 'unlikely'],
  [0.1, 'unlikely'],
  [0.05, 'very unlikely'],
  [0.01, 'very unlikely'],
  [0.009, 'exceptionally unlikely'],
  [0, 'exceptionally unlikely'],
] as const)('%d is %s', (share, word) => {
  expect(certaintyWord(share)).toBe(word);
});

test('words go from surest to least sure, each with a band of its own', () => {
  const least = CERTAINTY_WORDS.map(([, limit]) => limit);
  expect(least).toEqual(least.toSorted((a, b) => b - a));
  expect(new Set(least).size).toBe(least.length);
  expect(least.at(-1)).toBe(0);
});

test.each([-0.01, 1.01, Number.NaN])('%d is no probability', (share) => {
  expect(() => certaintyWord(share)).toThrow(`a probability lies between 0 and 1; got ${share}`);
});

test('the figure stands beside the word and never sounds surer than it is', () => {
  expect(certaintyText(0.938)).toBe('94 %, very likely');
  // A figure off the middle of the middle band stands beside the band, so that neither gives the other the lie.
  expect(certaintyText(0.62)).toBe('62 %, about as likely as not (33 to 66 %)');
  expect(certaintyText(0.2)).toBe('20 %, unlikely');
  expect([percentText(0.999), percentText(0.5), percentText(0.001)]).toEqual([
    'over 99 %',
    '50 %',
    'under 1 %',
  ]);
});

test('what stands first of many bears no word that would say the contrary', () => {
  expect(leadText(0.12)).toBe('12 % so far');
  expect(leadText(0.7)).toBe('70 %, likely');
});

test('a figure lies in the band of the word that it stands beside', () => {
  for (let per = 0; per <= 1000; per++) {
    const share = per / 1000;
    const figure = Number(/(\d+) %/.exec(percentText(share))![1]) / 100;
    const at = CERTAINTY_WORDS.findIndex(([word]) => word === certaintyWord(share));
    const [low, high] = [CERTAINTY_WORDS[at]![1], CERTAINTY_WORDS[at - 1]?.[1] ?? 1];
    expect([share, figure >= low && figure <= high], certaintyText(share)).toEqual([share, true]);
  }
});
