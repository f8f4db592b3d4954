import type { Network } from '../../circuit/index.ts';
import { fuseWords, itemOf, nameOf, pairWords, pointWords } from '../../wiring/index.ts';
import { lowerFirst } from '../../words/index.ts';
import {
  ANSWER_CLAUSES,
  actsOf,
  actWords,
  answerWordsOf,
  type TestAnswer,
} from '../tests/index.ts';
import { answerWord, type Observation, typedFigure } from './observation.ts';
import type { Question } from './question.ts';

/** What a question is about: `SL at the boiler E1`, `fuse of the fused spur Q1`. */
export function subjectOf(network: Network, question: Question): string {
  switch (question.kind) {
    case 'look': {
      const { title } = outcomeOf(network, question.outcome);
      return `${lowerFirst(title)} (${itemOf(question.outcome)})`;
    }
    case 'fuse':
      return fuseWords(network, question.branch);
    case 'act': {
      const test = actsOf(network).find(({ id }) => id === question.id);
      return test ? actWords(network, test).title : question.id;
    }
    default: {
      const { from, to } = question;
      return toNeutral(network, question)
        ? pointWords(network, from)
        : pairWords(network, from, to);
    }
  }
}

const outcomeOf = (network: Network, outcome: string) =>
  network.items.get(itemOf(outcome))!.device.outcomes[nameOf(outcome)]!;

/** A mode as its entry titles it: `Heating call`. */
export const modeTitle = (network: Network, mode: string): string =>
  network.system.modes[mode]?.title ?? mode;

/**
 * What was reported, as a clause without its mode: `SL at the boiler E1 has no volts`,
 * `boiler not firing (E1)`, `NO to N at the room stat B1 has part volts (84 V)`.
 */
export function clauseOf(network: Network, observation: Observation): string {
  const answer = answerWord(observation);
  if (observation.kind === 'act')
    return `${subjectOf(network, observation)}: ${answerWordsOf(answer, isProving(network, observation.id) ? 'prove' : undefined)}`;
  if (observation.kind === 'look') return lookClause(network, observation.outcome, answer);
  const figure = typedFigure(observation);
  const unit = observation.kind === 'dead' ? 'Ω' : 'V';
  const said = figure === null || !Number.isFinite(figure) ? '' : ` (${rounded(figure)} ${unit})`;
  const subject = subjectOf(network, { ...observation, current: 'ac' } as Question);
  return `${subject} ${ANSWER_CLAUSES[answer as keyof typeof ANSWER_CLAUSES]}${said}`;
}

function lookClause(network: Network, outcome: string, answer: TestAnswer): string {
  const { title, otherwise } = outcomeOf(network, outcome);
  const at = ` (${itemOf(outcome)})`;
  if (answer === 'not seen')
    return `${otherwise ? lowerFirst(otherwise) : `not: ${lowerFirst(title)}`}${at}`;
  return `${lowerFirst(title)}${answer === 'seen' ? '' : ', coming and going'}${at}`;
}

const isProving = (network: Network, id: string): boolean =>
  actsOf(network).find((test) => test.id === id)?.act === 'prove';

/** Whether a voltage is read from a line to the neutral beside it, which goes without saying. */
function toNeutral(network: Network, question: Extract<Question, { from: string }>): boolean {
  const carries = (point: string) =>
    network.nodes[network.nodeIndex.get(point)!]?.terminal?.carries;
  return (
    question.kind === 'live' &&
    carries(question.to) === 'neutral' &&
    carries(question.from) !== 'neutral' &&
    carries(question.from) !== 'earth'
  );
}

const rounded = (figure: number): string => String(Number(figure.toPrecision(3)));
