/**
 * Classes of a reading in a word. No reading proves anything dead: that word is for what a tester,
 * proved before and after, has proved so.
 */
export const READING_WORDS = {
  live: 'live',
  dead: 'no volts',
  between: 'part volts',
  high: 'high',
} as const;
