import { type Observation, type Question, questionOf } from '../diagnosis/inference/index.ts';
import type { Asked } from './findings.ts';

/** What an observation answers. */
export const askedAbout = (observation: Observation): Asked => withoutTest(questionOf(observation));

/** The same as one word: equal ones are of the same thing. */
export const askedKey = (observation: Observation): string =>
  JSON.stringify(askedAbout(observation));

/** A question without what only its test carries. */
export function withoutTest(question: Question): Asked {
  const { mode } = question;
  switch (question.kind) {
    case 'look':
      return { kind: 'look', mode, outcome: question.outcome };
    case 'fuse':
      return { kind: 'fuse', mode, branch: question.branch };
    case 'act':
      return { kind: 'act', mode, id: question.id };
    case 'dead':
      return { kind: 'dead', mode, from: question.from, to: question.to };
    case 'live': {
      const { from, to, instrument, current } = question;
      return { kind: 'live', mode, from, to, instrument, current };
    }
  }
}
