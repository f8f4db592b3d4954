import type { Symptom } from '../../schemas/index.ts';
import type { Network, Simulation } from '../circuit/index.ts';
import type { Signatures } from './signatures.ts';
import { answersWanted, givesAll, type WantedAnswer } from './signs.ts';
import type { SystemCauses } from './symptoms.ts';
import { answerIn, type LookTest, type Test } from './tests/index.ts';

/** What is seen of an outcome in a mode. */
export interface Sighting extends Pick<LookTest, 'mode' | 'outcome'> {
  readonly answer: 'seen' | 'not seen' | 'comes and goes';
}

/**
 * What whoever has a symptom before them has seen for certain in a system: the looks that
 * all its appearances there share. Fuses are not among them: nobody has seen one yet.
 */
export function seenWith(
  { shows }: Pick<Symptom, 'shows'>,
  { appearances }: Pick<SystemCauses, 'appearances'>,
  network: Network,
  { tests }: Pick<Signatures, 'tests'>,
): Sighting[] {
  return seenInAll(
    appearances.map((index) => answersWanted(shows[index]!, network, tests) ?? []),
    tests,
  );
}

/** What is seen for certain where all answers of any one of some lists are given: the looks they share. */
export function seenInAll(
  lists: readonly (readonly WantedAnswer[])[],
  tests: readonly Test[],
): Sighting[] {
  const looks = lists.map((wanted) =>
    wanted.flatMap(({ test, answer }): Sighting[] => {
      const asked = tests[test]!;
      if (asked.kind !== 'look') return [];
      return [{ mode: asked.mode, outcome: asked.outcome, answer: answer as Sighting['answer'] }];
    }),
  );
  const [first = [], ...others] = looks;
  const isSame = (one: Sighting) => (other: Sighting) =>
    one.mode === other.mode && one.outcome === other.outcome && one.answer === other.answer;
  return first.filter((one) => others.every((list) => list.some(isSame(one))));
}

/**
 * The same of a system of which no causes are worked out: what a symptom shows for certain, by
 * its id, of those that the system can show and shows only when it is not sound.
 */
export function seenWithout(
  symptoms: Readonly<Record<string, Pick<Symptom, 'shows'>>>,
  simulation: Simulation,
  tests: readonly Test[],
): Record<string, Sighting[]> {
  const { network } = simulation;
  const sound = tests.map((test) => answerIn(simulation, test));
  const shown = Object.entries(symptoms).flatMap(([id, symptom]): [string, Sighting[]][] => {
    const appearances = symptom.shows.flatMap((appearance, index) => {
      const wanted = answersWanted(appearance, network, tests);
      return wanted && !givesAll(wanted, sound) ? [index] : [];
    });
    if (appearances.length === 0) return [];
    return [[id, seenWith(symptom, { appearances }, network, { tests })]];
  });
  return Object.fromEntries(shown);
}
