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
    appearances.flatMap((index) => answersWanted(shows[index]!, network, tests)),
    tests,
  );
}

/** What is seen for certain where all answers of any one of some lists are given: the looks they share. */
export const seenInAll = (
  lists: readonly (readonly WantedAnswer[])[],
  tests: readonly Test[],
): Sighting[] =>
  inAll(lists).flatMap(({ test, answer }): Sighting[] => {
    const asked = tests[test]!;
    if (asked.kind !== 'look') return [];
    return [{ mode: asked.mode, outcome: asked.outcome, answer: answer as Sighting['answer'] }];
  });

/** The same of fuse links: those that have blown for certain, by their branches. */
export const blownInAll = (
  lists: readonly (readonly WantedAnswer[])[],
  tests: readonly Test[],
): string[] =>
  inAll(lists).flatMap(({ test, answer }) => {
    const asked = tests[test]!;
    return asked.kind === 'fuse' && answer === 'blown' ? [asked.branch] : [];
  });

function inAll([first = [], ...others]: readonly (readonly WantedAnswer[])[]): WantedAnswer[] {
  return first.filter(({ test, answer }) =>
    others.every((list) => list.some((other) => other.test === test && other.answer === answer)),
  );
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
      const ways = answersWanted(appearance, network, tests);
      return ways.some((wanted) => !givesAll(wanted, sound)) ? [index] : [];
    });
    if (appearances.length === 0) return [];
    return [[id, seenWith(symptom, { appearances }, network, { tests })]];
  });
  return Object.fromEntries(shown);
}
