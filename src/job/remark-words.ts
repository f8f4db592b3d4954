import type { Remark } from './job.ts';

/**
 * What each code means, in words. BS 7671:2018, Appendix 6, condition report: observations and
 * their classification codes (from memory).
 */
export const CODE_WORDS: Readonly<Record<Remark['code'], string>> = {
  C1: 'Danger present',
  C2: 'Potentially dangerous',
  C3: 'Improvement recommended',
  FI: 'Further investigation',
};

/** What is to be done at once where danger is present. */
export const DANGER_WORDS =
  'Danger present: make it safe at once, and tell the person responsible for the installation before you leave.';

/** Workmanship that is met beside a fault (common practice, no source). */
export const COMMON_REMARKS = [
  'No cord grip, or the grip not on the sheath',
  'Sheath cut back outside the box',
  'Cores too short, or under strain',
  'No sleeving on a core used as live',
  'Copper bare outside its terminal',
  'Earth not connected',
  'Cover missing or broken',
  'Scorched terminal',
  'No fuse rating marked',
  'Fuse larger than marked',
  'Not marked which isolator serves it',
  'Water gets at the wiring',
] as const;
