import {
  classOf,
  INSTRUMENTS,
  isExtraLow,
  read,
  resistanceBetween,
  type Simulation,
} from '../../circuit/index.ts';
import {
  answerWord,
  type Observation,
  problemWith,
  questionOf,
} from '../../diagnosis/inference/index.ts';
import {
  ANSWER_WORDS,
  actsOf,
  answerIn,
  deadAnswer,
  joinedOhms,
  type TestAnswer,
} from '../../diagnosis/tests/index.ts';
import type { AsFound } from '../../wiring/as-found/index.ts';
import { refOf, type Sheet } from '../sheet.ts';
import {
  actAnswerText,
  answerText,
  modeTitle,
  ohmsText,
  outcomeText,
  subjectText,
  voltsText,
} from '../words.ts';
import type { Stand, StoodReading } from './result.ts';

/** What a circuit shows for something that was observed: a word, and the same as text. */
interface Shown {
  readonly answer: TestAnswer;
  readonly text: string;
}

/** The two circuits that a reading is held against. */
export interface TwoCircuits {
  readonly sheet: Sheet;
  readonly intended: Simulation;
  readonly asFound: Simulation;
  readonly found: AsFound;
}

/** How every reading of a job stands to the circuit of the entry and to that as found. */
export const standsOf = (
  circuits: TwoCircuits,
  observations: readonly Observation[],
): StoodReading[] => observations.map((observation) => standOf(circuits, observation));

function standOf(circuits: TwoCircuits, observation: Observation): StoodReading {
  const { sheet, intended, asFound, found } = circuits;
  const answer = answerWord(observation);
  const said = {
    subject: subjectText(sheet, observation),
    mode: modeTitle(sheet, observation.mode),
    answer,
    text: answerText(sheet, observation),
  };
  if (problemWith(intended, observation) !== null)
    return { ...said, due: '', found: '', stand: 'refused' };
  const due = shownIn(sheet, intended, observation);
  const now = isGone(found, observation) ? null : shownIn(sheet, asFound, observation);
  const bridged = observation.kind === 'fuse' && found.bridged.includes(observation.branch);
  const shown: Shown | null = bridged ? { answer: 'wrong rating', text: 'bridged' } : now;
  return {
    ...said,
    due: due.text,
    found: shown?.text ?? 'not there',
    stand: stand(answer === due.answer, answer === shown?.answer),
  };
}

function stand(asEntry: boolean, asFound: boolean): Stand {
  if (asFound) return asEntry ? 'entry' : 'explained';
  return asEntry ? 'against' : 'neither';
}

/** Whether what was read belongs to an item that is not there. */
function isGone({ absent }: AsFound, observation: Observation): boolean {
  const ids =
    observation.kind === 'act'
      ? []
      : observation.kind === 'look'
        ? [observation.outcome]
        : observation.kind === 'fuse'
          ? [observation.branch]
          : [observation.from, observation.to];
  return ids.some((id) => absent.includes(refOf(id)));
}

function shownIn(sheet: Sheet, simulation: Simulation, observation: Observation): Shown {
  const settled = simulation.modes.get(observation.mode)!;
  const { solution } = settled;
  const question = questionOf(observation);
  switch (question.kind) {
    case 'look': {
      const seen = settled.outcomes.get(question.outcome) ?? false;
      const answer = seen === 'hunting' ? 'comes and goes' : seen ? 'seen' : 'not seen';
      return { answer, text: outcomeText(sheet, question.outcome, answer) };
    }
    case 'dead': {
      const ohms = resistanceBetween(solution, question.from, question.to);
      const { from, to } = question;
      const answer = deadAnswer(ohms, joinedOhms(simulation.network, from, to));
      const figure = answer === 'open' ? '' : `, ${ohmsText(ohms)}`;
      return { answer, text: `${ANSWER_WORDS[answer]}${figure}` };
    }
    case 'act': {
      const test = actsOf(simulation.network).find(({ id }) => id === question.id)!;
      const answer = answerIn(simulation, test);
      return { answer, text: actAnswerText(sheet, question.id, answer) };
    }
    case 'fuse': {
      const answer = fuseAnswer(simulation, question.mode, question.branch);
      return { answer, text: ANSWER_WORDS[answer] };
    }
    case 'live': {
      const instrument = INSTRUMENTS.find(({ id }) => id === question.instrument)!;
      const { ac, dc } = read(solution, question.from, question.to, instrument);
      const [answer, text]: [TestAnswer, string] =
        question.current === 'dc'
          ? [isExtraLow(dc) ? 'dc' : 'no dc', voltsText(dc, 'dc')]
          : [classOf(ac), voltsText(ac)];
      return { answer, text: `${ANSWER_WORDS[answer]}, ${text}` };
    }
  }
}

function fuseAnswer({ network, modes }: Simulation, mode: string, id: string): TestAnswer {
  const branch = network.branches[network.branchIndex.get(id)!]!;
  if (branch.kind !== 'element' || modes.get(mode)!.state.blown.has(id)) return 'blown';
  const due = network.items.get(branch.item)!.device.elements[branch.name];
  return 'rating' in branch.element &&
    due &&
    'rating' in due &&
    branch.element.rating === due.rating
    ? 'intact'
    : 'wrong rating';
}
