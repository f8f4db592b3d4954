import type { System } from '../../../schemas/index.ts';
import { FEW, nextQuestion } from '../../recognise/index.ts';
import { type Choice, choicesOf, type Facet, facetsFor, type OwnFeatures } from './facets.ts';

/** The answer of one who cannot tell: it rules nothing out. */
const unknown = (name: Facet['name']): Choice => ({
  id: `${name}-unknown`,
  value: 'unknown',
  // Of what may be there or not, nothing may be seen; of boilers and controls there is one.
  label: ['arrangement', 'control'].includes(name) ? 'Don’t know' : 'None, or don’t know',
});

/** The questions in the order in which they are asked, each with a way out. */
export const questionsFor = (systems: Iterable<System>, own: OwnFeatures = {}): Facet[] =>
  facetsFor(systems, own).map((facet) => ({
    ...facet,
    answers: 'one',
    choices: [...facet.choices, unknown(facet.name)],
  }));

/**
 * Style rules by which the answers alone bring the next question, leave out answers that no
 * system left has, and show what the last few are recognised by; with no script.
 */
export function questionStyles(systems: readonly System[], own: OwnFeatures = {}): string {
  const questions = questionsFor(systems, own);
  const rules: string[] = [];
  const ask = (at: number, left: readonly System[], chosen: string): void => {
    const next = left.length > FEW ? nextQuestion(questions, at, left.map(choicesOf)) : -1;
    if (chosen !== '' && left.length <= FEW) rules.push(`${chosen} .in-front{--lines:block}`);
    if (next < 0) return;
    const question = questions[next]!;
    if (chosen !== '') rules.push(`${chosen} .question.${question.name}{display:flex}`);
    for (const { id, value } of question.choices) {
      const rest = value === 'unknown' ? left : left.filter((one) => choicesOf(one).includes(id));
      const tells = value === 'unknown' || (rest.length > 0 && rest.length < left.length);
      if (tells) ask(next + 1, rest, `${chosen || ':root'}:has(#${id}:checked)`);
      else if (chosen !== '') rules.push(`${chosen} .chip:has(#${id}){display:none}`);
    }
  };
  ask(0, systems, '');
  return rules.join('\n');
}
