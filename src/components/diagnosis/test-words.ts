import type { Network } from '../../circuit/index.ts';
import type { Test, TestAnswer } from '../../diagnosis/index.ts';
import { answerWordsOf } from '../../diagnosis/tests/index.ts';

/** An answer in words: an outcome in its own, a reading by its class. */
export function answerWords(network: Network, test: Test, answer: TestAnswer): string {
  const seen = test.kind === 'look' || test.kind === 'act' ? test.outcome : undefined;
  if (seen === undefined || (answer !== 'seen' && answer !== 'not seen'))
    return answerWordsOf(answer, test.kind === 'act' ? test.act : undefined);
  const outcome = outcomeOf(network, seen);
  const title = outcome?.title ?? seen;
  return answer === 'seen' ? title : (outcome?.otherwise ?? `not: ${title}`);
}

/** Class name of an answer's look; empty where it is no mains reading. */
export const answerLook = (answer: TestAnswer): string =>
  ['live', 'dead', 'between', 'high'].includes(answer) ? answer : '';

/** What a device says of an outcome, `ITEM.outcome`. */
export function outcomeOf(network: Network, reference: string) {
  const dot = reference.indexOf('.');
  return network.items.get(reference.slice(0, dot))?.device.outcomes[reference.slice(dot + 1)];
}

/** Item a test is made at. */
export function itemOfTest(test: Test): string {
  if (test.kind === 'look') return test.outcome.slice(0, test.outcome.indexOf('.'));
  if (test.kind === 'act') return test.place.slice(0, test.place.indexOf('/'));
  return test.kind === 'fuse' ? test.item : test.pair.item;
}

/** Sense an outcome is taken in by, as an instruction. */
export function lookVerb(network: Network, outcome: string): string {
  const by = outcomeOf(network, outcome)?.by ?? 'sight';
  return { sight: 'Look at', hearing: 'Listen at', touch: 'Feel at' }[by];
}
