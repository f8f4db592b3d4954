import { expect, test } from 'vitest';
import { HISTORIES } from '../../../src/diagnosis/index.ts';
import {
  ANSWERS,
  type Case,
  next,
  observe,
  openCase,
  standAt,
} from '../../../src/diagnosis/inference/index.ts';
import type { Next, Step, TestSequence } from '../../../src/diagnosis/sequences/index.ts';
import { isAnswer } from '../../support/answers.ts';
import { shippedSystem } from '../../support/shipped.ts';
import { modelOf, reported } from './jobs.ts';

const SYSTEMS = ['combi-two-wire', 'combi-volt-free', 'combi-condensate-pump'];

/** What the phone proposes from a complaint with one fault there, until something is found. */
function* proposed(open: Case, answers: readonly string[]) {
  for (let now = open; ; ) {
    const proposal = next(now);
    if (!proposal) return;
    yield proposal.test.id;
    const at = now.model.testAt.get(proposal.test.id)!;
    const observation = reported(proposal.test, ANSWERS.indexOf(answers[at] as never));
    now = observe(now, observation);
    if (observation.answer === 'found') return;
  }
}

/** Tests on the way that a printed sequence takes one with a fault there. */
function printed(sequence: TestSequence, answerOf: (test: string) => string): string[] {
  const tests: string[] = [];
  for (let at: Next | undefined = sequence.first; at?.kind === 'step'; ) {
    const { test, answers }: Step = sequence.steps[at.number - 1]!;
    tests.push(test.id);
    const own = answerOf(test.id);
    const taken: Next | undefined = answers.find(({ answer }) => isAnswer(answer, own))?.next;
    at = own === 'found' ? undefined : taken;
  }
  return tests;
}

for (const id of SYSTEMS) {
  const system = shippedSystem(id);
  const { signatures, orders } = system;
  for (const [history, starts, sequences] of [
    [HISTORIES[0], system.starts, system.sequences],
    [HISTORIES[1], system.startsSinceWork, system.sequencesSinceWork],
  ] as const) {
    test(`${id}, ${history}: from each complaint a job goes the printed way`, () => {
      const model = modelOf(id, history);
      let followedTo = 0;
      starts.forEach(({ shows, open, mode }, i) => {
        // A few of each complaint: the first, the last and those between, evenly.
        const some = open.filter((_, k) => k % Math.ceil(open.length / 4) === 0);
        for (const { answers } of some) {
          const shown = shows.find((one) =>
            one.every(({ test, answer }) => answers[test] === answer),
          );
          // Whoever starts from nothing comes upon a complaint, and goes on from there.
          if (!shown?.length) continue;
          const begun = shown.reduce(
            (now, { test, answer }) =>
              observe(now, reported(model.tests[test]!, ANSWERS.indexOf(answer))),
            openCase(model, orders),
          );
          const way = printed(sequences[i]!, (name) => answers[model.testAt.get(name)!]!).filter(
            (name) => !shown.some(({ test }) => model.tests[test]!.id === name),
          );
          const made = proposed(standAt(begun, { mode }), answers);
          expect(
            Array.from(way, () => made.next().value),
            starts[i]!.id,
          ).toEqual(way);
          followedTo += way.length;
        }
      });
      expect(followedTo).toBeGreaterThan(30);
      expect(signatures.tests.length).toBe(model.tests.length);
    });
  }
}

test('what cannot be done is left out, and what is planned then is another test', () => {
  const { orders } = shippedSystem('combi-two-wire');
  const open = openCase(modelOf('combi-two-wire'), orders);
  const first = next(open)!.test.id;
  const second = next(standAt(open, { without: new Set([first]) }))!.test.id;
  expect(second).not.toBe(first);
});
