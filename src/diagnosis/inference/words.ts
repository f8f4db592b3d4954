import type { Network } from '../../circuit/index.ts';
import { ANSWER_CLAUSES, ANSWER_WORDS, actsOf, actWords, type TestAnswer } from '../tests/index.ts';
import { answerWord, type Observation, typedFigure } from './observation.ts';
import type { Question } from './question.ts';

/** A point as it is spoken of: `E1 call return`. */
export const pointName = (point: string): string => point.replace('.', ' ');

/** What a question is about: `E1 call return to N`, `E1 burner`, `Q1 fuse`. */
export function subjectOf(network: Network, question: Question): string {
  switch (question.kind) {
    case 'look':
      return pointName(question.outcome);
    case 'fuse':
      return question.branch.replace('/', ' ');
    case 'act': {
      const test = actsOf(network).find(({ id }) => id === question.id);
      return test ? actWords(network, test).title : question.id;
    }
    default: {
      const { from, to } = question;
      const item = (point: string) => point.slice(0, point.indexOf('.'));
      const short = item(from) === item(to);
      return toNeutral(network, question)
        ? pointName(from)
        : `${pointName(from)} to ${short ? to.slice(item(to).length + 1) : pointName(to)}`;
    }
  }
}

/** A mode as its entry titles it: `Heating call`. */
export const modeTitle = (network: Network, mode: string): string =>
  network.system.modes[mode]?.title ?? mode;

/**
 * What was reported, as a clause without its mode: `E1 call return reads dead`, `burner out`,
 * `B1 NO to N reads part volts (84 V)`.
 */
export function clauseOf(network: Network, observation: Observation): string {
  const answer = answerWord(observation);
  if (observation.kind === 'act')
    return `${subjectOf(network, observation)}: ${ANSWER_WORDS[answer]}`;
  if (observation.kind === 'look') return lookClause(network, observation.outcome, answer);
  const figure = typedFigure(observation);
  const unit = observation.kind === 'dead' ? 'Ω' : 'V';
  const said = figure === null || !Number.isFinite(figure) ? '' : ` (${rounded(figure)} ${unit})`;
  const subject = subjectOf(network, { ...observation, current: 'ac' } as Question);
  return `${subject} ${ANSWER_CLAUSES[answer as keyof typeof ANSWER_CLAUSES]}${said}`;
}

function lookClause(network: Network, outcome: string, answer: TestAnswer): string {
  const [item, name] = outcome.split('.') as [string, string];
  const { title, otherwise } = network.items.get(item)!.device.outcomes[name]!;
  if (answer === 'not seen') {
    return `${item} ${otherwise ? lowerFirst(otherwise) : `without: ${lowerFirst(title)}`}`;
  }
  return `${item} ${lowerFirst(title)}${answer === 'seen' ? '' : ', coming and going'}`;
}

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

/** First letter in lower case, but for a designation or an abbreviation. */
export const lowerFirst = (text: string): string =>
  /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
