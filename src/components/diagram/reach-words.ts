import type { Opening } from '../../../schemas/index.ts';
import type { Place } from '../../site/index.ts';

const NEEDS: Readonly<Record<Opening['needs'], string>> = {
  isolated: 'isolated, locked off and proved dead',
  'switch off': 'with its own switch off',
  nothing: 'as it stands',
};

/** Who gets at a place and how, in a sentence or two. */
export function reachWords({ opening }: Place): string {
  const { title, by, needs, readings, because } = opening;
  const who = /^[AEIOU]/i.test(by) ? `an ${by}` : `a ${by}`;
  const opens =
    by === 'controls engineer'
      ? `To open: ${title}, which ${who} takes off ${NEEDS[needs]}.`
      : `To open: ${title}, which only ${who} takes off.`;
  const what = { 'live and dead': '', 'dead only': ' Read dead only.', none: ' Not read there.' };
  return `${opens}${what[readings]}${because ? ` ${because}` : ''}`;
}

/**
 * In what order a terminal behind an opening is read with the supply on, as the steps of a job
 * have it: nothing is opened or closed but dead, and nothing is left open (HSG85; GS38).
 * @param title what comes off.
 */
export const readingOrder = (title: string): readonly string[] => [
  'Isolate, lock off and prove dead.',
  `Open up: ${title}. Prove dead inside too, before a hand goes in.`,
  'Nothing loose, every other cover on, others kept away.',
  'Restore the supply for the reading only, bring the mode about, and read.',
  'Isolate again and prove dead; then touch, close up, restore.',
];

/** Why nobody reads in a mode that cannot stand with a box open and the supply on. */
export const UNREAD_WORDS =
  'This mode is looked at only: no box stands open with the supply on while water is poured.';

/** Whether a place is opened isolated for a reading with the supply on. */
export const isOpenedForReading = ({ opening }: Place): boolean =>
  opening.needs === 'isolated' && opening.readings === 'live and dead';

/** What a sheet says of a terminal that the isolator leaves on the supply. */
export const LEFT_ON_WORDS = {
  live: 'Live with the isolator off too: it stands on the supply side. Only its own MCB or RCBO at the consumer unit, off, locked and proved, makes it dead.',
  neutral:
    'Joined to the supply with the isolator off too: it stands on the supply side. Treat this neutral as live.',
} as const;

/** What to mind at a place, and at a reading there with the supply on (GS38). */
export function cautionAt({ opening }: Place, isRead: boolean): string {
  const live =
    isRead && opening.readings === 'live and dead'
      ? 'A live reading is for a competent person: prove the tester before and after, probes to GS38, others away.'
      : '';
  return [live, opening.care ?? ''].filter(Boolean).join(' ');
}
