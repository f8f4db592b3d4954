import {
  type Explanation,
  evidenceOf,
  type Model,
  type Observation,
} from '../diagnosis/inference/index.ts';
import type { Sheet } from './sheet.ts';
import { clauseText } from './words.ts';

/** Most clauses given for one repair, and most of them about what is not as it should be. */
const MOST_CLAUSES = 4;
const MOST_EXPLAINED = 2;
/** Share of all faults that a sound answer must rule out to be worth naming. */
const TELLING = 0.25;

/** What speaks for an explanation and against it, in clauses. */
export interface Reasons {
  readonly because: readonly string[];
  readonly against: readonly string[];
}

/**
 * Reasons for one explanation: first what it explains and a sound system would not show, then
 * what is as it should be and rules most others out; against it, what it does not explain.
 */
export function reasonsFor(
  model: Model,
  sheet: Sheet,
  { against }: Explanation,
  observations: readonly Observation[],
): Reasons {
  const wrong = new Set(against);
  const sound = model.singles.length - 1;
  const explained: { clause: string; weight: number }[] = [];
  const fitting: { clause: string; weight: number }[] = [];
  for (const [at, observation] of observations.entries()) {
    if (wrong.has(at)) continue;
    const { agrees } = evidenceOf(model, observation);
    const weight = ruledOut(model, agrees);
    const clause = clauseText(sheet, observation);
    if (agrees[sound]) {
      if (weight >= TELLING) fitting.push({ clause: `${clause}, as it should`, weight });
    } else explained.push({ clause, weight });
  }
  const telling = (list: typeof explained) => list.toSorted((a, b) => b.weight - a.weight);
  const first = telling(explained);
  const chosen = [
    ...first.slice(0, MOST_EXPLAINED),
    ...telling(fitting),
    ...first.slice(MOST_EXPLAINED),
  ];
  return {
    because: [...new Set(chosen.map(({ clause }) => clause))].slice(0, MOST_CLAUSES),
    against: against.slice(0, MOST_CLAUSES).map((at) => clauseText(sheet, observations[at]!)),
  };
}

/** Share of the faults, as believed before anything was seen, that an observation speaks against. */
function ruledOut({ singles }: Model, agrees: Uint8Array): number {
  let out = 0;
  let all = 0;
  for (const [i, { prior }] of singles.entries()) {
    all += prior;
    if (!agrees[i]) out += prior;
  }
  return out / all;
}
