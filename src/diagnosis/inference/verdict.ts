import { foundRepair } from './found.ts';
import type { Model } from './model.ts';
import type { Observation } from './observation.ts';
import type { RankedRepair, Ranking } from './posterior.ts';
import { ALLOWED_MISREADINGS } from './priors.ts';
import { questionKey, questionOf } from './question.ts';

/**
 * How the best explanation stands to what was reported.
 * nothing reported: there is nothing to explain yet;
 * found: it predicts everything reported, is certain enough, and a test found it;
 * fits: it predicts everything reported, and more is needed to call it found;
 * one reading against: it predicts everything else, and that reading should be taken again;
 * not as shown: something that the entry does not model is likelier than not, or neither one
 * fault nor two at once account for what was reported.
 */
export interface Verdict {
  readonly kind: 'nothing reported' | 'found' | 'fits' | 'one reading against' | 'not as shown';
  /** In plain words, with what to do where there is something to do. */
  readonly text: string;
  /** Places of the observations that stand against the best explanation, not read again since. */
  readonly against: readonly number[];
  /** What was found, where it was. */
  readonly found: RankedRepair | null;
}

/** Share of what the entry does not model from which on it is said. */
export const NOT_AS_SHOWN_SHARE = 0.5;

const TEXTS: Readonly<Record<Verdict['kind'], string>> = {
  'nothing reported': 'Nothing reported yet.',
  found:
    'Found: it accounts for everything reported, and a test would have come out differently without it.',
  fits: 'Not found yet: the likeliest explanation accounts for everything reported, and so may others.',
  'one reading against':
    'One report stands against the likeliest explanation: take that reading again.',
  'not as shown':
    'Not as drawn: compare the wiring with its table. Something that is not on the drawing accounts best for what was reported: cores in other terminals, a part of another kind, or several faults at once. Isolate, lock off and prove dead before a core is touched.',
};

/** Whether the reports contradict the model, in one word and in plain words. */
export function verdictOf(
  model: Model,
  ranking: Ranking,
  observations: readonly Observation[],
): Verdict {
  const against = standing(ranking, observations);
  const fitting = kindOf(ranking, observations, against);
  const found = fitting === 'fits' ? foundRepair(model, ranking, observations) : null;
  const kind = found ? 'found' : fitting;
  return { kind, text: TEXTS[kind], against, found };
}

function kindOf(
  { notAsShown }: Ranking,
  observations: readonly Observation[],
  against: readonly number[],
): Verdict['kind'] {
  if (observations.length === 0) return 'nothing reported';
  if (against.length > ALLOWED_MISREADINGS) return 'not as shown';
  // One report that was made once may be a slip: it is made again before the entry is doubted.
  if (against.length === 1 && timesAsked(observations, against[0]!) === 1)
    return 'one reading against';
  if (notAsShown >= NOT_AS_SHOWN_SHARE) return 'not as shown';
  return against.length === 0 ? 'fits' : 'one reading against';
}

/** How often the question of an observation was asked. */
function timesAsked(observations: readonly Observation[], place: number): number {
  const key = questionKey(questionOf(observations[place]!));
  return observations.filter((one) => questionKey(questionOf(one)) === key).length;
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
