import type { Observation } from './observation.ts';
import type { Ranking } from './posterior.ts';
import { ALLOWED_MISREADINGS } from './priors.ts';
import { questionKey, questionOf } from './question.ts';

/**
 * How the best explanation stands to what was reported.
 * nothing reported: there is nothing to explain yet;
 * fits: it predicts everything reported;
 * one reading against: it predicts everything else, and that reading should be taken again;
 * not as shown: neither one fault nor two at once account for it.
 */
export interface Verdict {
  readonly kind: 'nothing reported' | 'fits' | 'one reading against' | 'not as shown';
  /** In plain words, with what to do where there is something to do. */
  readonly text: string;
  /** Places of the observations that stand against the best explanation, not read again since. */
  readonly against: readonly number[];
}

/** Share of `not wired as this entry shows` from which on it is said. */
export const NOT_AS_SHOWN_SHARE = 0.5;

const TEXTS: Readonly<Record<Verdict['kind'], string>> = {
  'nothing reported': 'Nothing reported yet.',
  fits: 'The likeliest explanation accounts for everything reported.',
  'one reading against':
    'One report stands against the likeliest explanation: take that reading again.',
  'not as shown':
    'Not wired as this entry shows: check as found. No fault and no two faults of this system account for what was reported. Isolate, lock off and prove dead before a core is touched.',
};

/** Whether the reports contradict the model, in one word and in plain words. */
export function verdictOf(ranking: Ranking, observations: readonly Observation[]): Verdict {
  const against = standing(ranking, observations);
  const kind = kindOf(ranking, observations.length, against.length);
  return { kind, text: TEXTS[kind], against };
}

function kindOf({ notAsShown }: Ranking, reported: number, against: number): Verdict['kind'] {
  if (reported === 0) return 'nothing reported';
  if (notAsShown >= NOT_AS_SHOWN_SHARE || against > ALLOWED_MISREADINGS) return 'not as shown';
  return against === 0 ? 'fits' : 'one reading against';
}

/**
 * Observations against the best explanation. One that was taken again and then agreed no
 * longer stands: the last answer to a question counts.
 */
function standing(
  { explanations: [top] }: Ranking,
  observations: readonly Observation[],
): number[] {
  const last = new Map(observations.map((o, place) => [questionKey(questionOf(o)), place]));
  return (top?.against ?? []).filter(
    (place) => last.get(questionKey(questionOf(observations[place]!))) === place,
  );
}
