import type { SEVERITIES } from '../../../schemas/index.ts';
import type { Judgement } from '../../standards/index.ts';

/** What a verdict is called, and the class of its marks. */
export const STATES: Readonly<
  Record<Judgement['state'], { readonly word: string; readonly slug: string }>
> = {
  breached: { word: 'Not met', slug: 'breached' },
  excepted: { word: 'Excepted', slug: 'excepted' },
  holds: { word: 'Met', slug: 'holds' },
  'does not apply': { word: 'Does not apply', slug: 'apart' },
};

/** Verdicts in the order in which a reader needs them. */
export const STATE_ORDER = Object.keys(STATES) as readonly Judgement['state'][];

/** What a standard's severity means to a reader. */
export const SEVERITY_WORDS: Readonly<Record<(typeof SEVERITIES)[number], string>> = {
  danger: 'Danger: somebody may be hurt',
  fault: 'Fault: it does not work as it must',
  advice: 'Advice: better so',
};

/** How many of some judgements are in each state, as in `14 met, 1 excepted`. */
export function tally(judgements: readonly Pick<Judgement, 'state'>[]): string {
  const parts = STATE_ORDER.flatMap((state) => {
    const n = judgements.filter((one) => one.state === state).length;
    return n === 0
      ? []
      : [
          `${n} ${n === 1 || state !== 'does not apply' ? STATES[state].word.toLowerCase() : 'do not apply'}`,
        ];
  });
  return parts.join(', ');
}
