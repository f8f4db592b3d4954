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
      ? `Behind the ${title}: ${who} takes it off, ${NEEDS[needs]}.`
      : `Behind the ${title}: only ${who} takes it off.`;
  const what = { 'live and dead': '', 'dead only': ' Read dead only.', none: ' Not read there.' };
  return `${opens}${what[readings]}${because ? ` ${because}` : ''}`;
}

/** What to mind at a place, and at a reading there with the supply on (GS38). */
export function cautionAt({ opening }: Place, isRead: boolean): string {
  const live =
    isRead && opening.readings === 'live and dead'
      ? 'A live reading is for a competent person: prove the tester before and after, probes to GS38, others away.'
      : '';
  return [live, opening.care ?? ''].filter(Boolean).join(' ');
}
