import { coresOf } from '../diagnosis/index.ts';
import { ANSWERS, type Case, questionOf, type Ranking } from '../diagnosis/inference/index.ts';
import { COLOUR_CODES } from '../published/index.ts';
import { cableWords } from '../wiring/index.ts';
import type { FoundThere } from './findings.ts';
import { repairOf } from './found-repair.ts';

/** Acts after which whoever found something has it before them. */
const LOOKED: readonly string[] = ['inside', 'compare'];
const WHY = { because: 'You found it there.', against: '' };

/**
 * What was found, where looking into a box or comparing its cores came last and found something:
 * everything that it shows, for whoever looked to say which. Nothing has to be worked out then.
 */
export function foundThere(open: Case, { repairs }: Ranking): FoundThere[] {
  const { model, observations } = open;
  const last = observations.at(-1);
  if (last?.kind !== 'act' || last.answer !== 'found') return [];
  const question = questionOf(last);
  const test = model.tests[model.listedAt(question) ?? -1];
  if (test?.kind !== 'act' || !LOOKED.includes(test.act)) return [];
  const answerOf = model.answersTo(question);
  const { network } = model.simulation;
  return repairs.flatMap((repair) => {
    const shown = repair.explanations.filter(
      ({ hypothesis }) =>
        hypothesis.faults.length === 1 && ANSWERS[answerOf(hypothesis)] === 'found',
    );
    const [top] = shown;
    if (!top) return [];
    const cores = coresOf(top.hypothesis.faults[0]!.edit).map(({ cable, colour }) => ({
      cable: cableWords(network, cable),
      core: COLOUR_CODES[colour],
    }));
    return { cores, repair: repairOf({ ...repair, explanations: shown }, open, WHY) };
  });
}
