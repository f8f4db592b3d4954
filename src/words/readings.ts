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

/**
 * What goes before a reading to an earth, taken where no neutral is beside the live: no volts to an
 * earth that is joined to nothing says nothing of the live (common practice, no source).
 */
export const EARTH_FIRST =
  'That earth counts once it is proved: isolated, low ohms from it to the supply’s earth.';

/**
 * Why a reading shows part of the volts: a core picks them up from the one beside it, or something
 * feeds them on (BS EN 61243-3 of what a load shows, seen in quotation; common practice, no source).
 */
export const PART_VOLTS_WHY =
  'Part volts: a ghost voltage, picked up from the core beside it and gone under load; or fed on through a load or a holding circuit, and there under load too.';
