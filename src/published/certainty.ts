import { type Source, seen } from './source.ts';

/** Where the words come from, and the figures they stand for. */
export const CERTAINTY_SOURCE: Source = seen(
  'IPCC Fourth Assessment Report (2007), Working Group II, front matter F: description of likelihood',
);

/**
 * The scale's words, surest first, with the least probability of each. The bands do not overlap,
 * so that every probability has one word; a limit belongs to the more cautious word.
 */
export const CERTAINTY_WORDS = [
  ['virtually certain', 0.99],
  ['very likely', 0.9],
  ['likely', 0.66],
  ['about as likely as not', 0.33],
  ['unlikely', 0.1],
  ['very unlikely', 0.01],
  ['exceptionally unlikely', 0],
] as const;

export type CertaintyWord = (typeof CERTAINTY_WORDS)[number][0];

/**
 * The scale's word for a probability.
 * @throws RangeError for what is no probability.
 */
export function certaintyWord(share: number): CertaintyWord {
  if (!(share >= 0 && share <= 1))
    throw new RangeError(`a probability lies between 0 and 1; got ${share}`);
  // Above the middle a limit is not passed by reaching it; below it, reaching it passes it.
  const at = CERTAINTY_WORDS.find(([, least]) => (least > 0.5 ? share > least : share >= least));
  return at![0];
}

/** A probability as a figure, per cent, rounded so that it never sounds surer than it is. */
export function percentText(share: number): string {
  const percent = 100 * share;
  if (percent < 1) return 'under 1 %';
  if (percent > 99) return 'over 99 %';
  return `${Math.floor(percent + 0.5)} %`;
}

/** The scale's middle word stands for a band: beside a figure such as 62 % it would read as a half. */
const MIDDLE: CertaintyWord = 'about as likely as not';

/**
 * What stands before all others, however little that is: below the scale's middle its word alone
 * would say the contrary, so there stands only the figure.
 */
export const leadText = (share: number): string =>
  share < 0.33 ? `${percentText(share)} so far` : certaintyText(share);

/** A probability as a figure with the scale's word: `94 %, very likely`. */
export function certaintyText(share: number): string {
  const word = certaintyWord(share);
  return `${percentText(share)}, ${word}${word === MIDDLE ? ' (33 to 66 %)' : ''}`;
}
