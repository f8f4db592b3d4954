import { classOf, isExtraLow } from '../circuit/index.ts';
import { answerWord, type Observation, typedFigure } from '../diagnosis/inference/index.ts';
import {
  ANSWER_WORDS,
  answerWordsOf,
  deadAnswer,
  JOINED_OHMS,
  mayBeOne,
  OPEN_OHMS,
  type TestAnswer,
} from '../diagnosis/tests/index.ts';
import { volts } from '../units/index.ts';
import { capital, lowerFirst, PART_VOLTS_WHY, terminalWords } from '../words/index.ts';
import { askedAbout } from './asked.ts';
import type { Asked, Due } from './findings.ts';
import type { Job } from './job.ts';
import { actIn, fuseIn, itemIn, joinedIn, modeIn, outcomeIn, refOf, type Sheet } from './sheet.ts';

/** Class name by which the site's styles draw a reading's answer. */
export const answerLook = (answer: TestAnswer): string =>
  answer === 'no dc' ? 'no-dc' : answer.replaceAll(' ', '-');

/** The class of a voltage as it is typed. */
export function voltsAnswer(figure: number, current: 'ac' | 'dc'): TestAnswer {
  if (current === 'dc') return isExtraLow(volts(figure)) ? 'dc' : 'no dc';
  return classOf(volts(figure));
}

/** The class of a resistance as it is typed, ohms. */
export const ohmsAnswer = (figure: number, joined?: number): TestAnswer =>
  deadAnswer(figure, joined);

/** A voltage as a page says it: whole volts, tenths below ten. */
export const voltsText = (figure: number, current: 'ac' | 'dc' = 'ac'): string =>
  `${number(Math.abs(figure) < 10 ? Math.round(figure * 10) / 10 : Math.round(figure))} V${current === 'dc' ? ' DC' : ''}`;

/** A resistance as a page says it: `0.3 Ω`, `47 kΩ`. */
export function ohmsText(figure: number): string {
  const [scale, unit] = ohmsScale(figure);
  return `${number(Number((figure / scale).toPrecision(figure < 10 ? 2 : 3)))} ${unit}`;
}

const ohmsScale = (figure: number) =>
  figure >= 1e6
    ? ([1e6, 'MΩ'] as const)
    : figure >= 1e3
      ? ([1e3, 'kΩ'] as const)
      : ([1, 'Ω'] as const);

const number = (n: number) => String(Object.is(n, -0) ? 0 : n).replace('-', '−');

/** A figure as it was typed, not rounded: 11.5 V is dead where 12 V is not. */
const typedVolts = (figure: number, current: 'ac' | 'dc') =>
  `${number(asTyped(figure))} V${current === 'dc' ? ' DC' : ''}`;
const typedOhms = (figure: number) => {
  const [scale, unit] = ohmsScale(figure);
  return `${number(asTyped(figure / scale))} ${unit}`;
};
/** Seven digits are the most that the pad takes; beyond them stands the noise of arithmetic. */
const asTyped = (figure: number) => Number(figure.toPrecision(7));

/** An observation's answer: `between, 112 V`, `Burner out`. */
export function answerText(sheet: Sheet, observation: Observation): string {
  const word = answerWord(observation);
  if (observation.kind === 'look') return outcomeText(sheet, observation.outcome, word);
  if (observation.kind === 'act') return actAnswerText(sheet, observation.id, word);
  const figure = typedFigure(observation);
  const said = ANSWER_WORDS[word];
  if (figure === null) return said;
  if (observation.kind === 'dead') return `${said}, ${typedOhms(figure)}`;
  const direct = observation.kind === 'live' && typeof observation.answer === 'object';
  return `${said}, ${typedVolts(figure, direct && 'current' in observation.answer ? observation.answer.current : 'ac')}`;
}

/** Between which figures a word for ohms lies; empty for any other answer. */
export function ohmsBand(answer: TestAnswer, limit: number = JOINED_OHMS): string {
  const joined = Math.round(limit);
  if (answer === 'joined') return `up to ${ohmsText(joined)}`;
  if (answer === 'resistance') return `${ohmsText(joined)} to ${ohmsText(OPEN_OHMS)}`;
  return answer === 'open' ? `${ohmsText(OPEN_OHMS)} or more` : '';
}

/** An answer as the record says it: a resistance without a figure with the band that it lies in. */
export function recordedText(sheet: Sheet, observation: Observation): string {
  const text = answerText(sheet, observation);
  const { kind } = observation;
  if (answerWord(observation) !== 'resistance' || typedFigure(observation) !== null) return text;
  const act = kind === 'act' ? actIn(sheet, observation.id) : undefined;
  if (act?.act === 'insulation') return text;
  const joined = kind === 'dead' ? joinedIn(sheet, observation.from, observation.to) : act?.joined;
  return `${text}, ${ohmsBand('resistance', joined)}`;
}

/** An outcome with its answer, as a person says it. */
export function outcomeText(sheet: Sheet, id: string, answer: TestAnswer): string {
  const outcome = outcomeIn(sheet, id);
  if (!outcome) return `${id.replace('.', ' ')}: ${ANSWER_WORDS[answer]}`;
  if (answer === 'comes and goes') return `${outcome.title}, coming and going`;
  return answer === 'seen' ? outcome.title : outcome.otherwise;
}

/** An answer to an act, as a person says it. */
export function actAnswerText(sheet: Sheet, id: string, answer: TestAnswer): string {
  const act = actIn(sheet, id);
  return act?.outcome ? outcomeText(sheet, act.outcome, answer) : answerWordsOf(answer, act?.act);
}

/** What an observation was about: `SL to N at E1`, `Q1 fuse`, `E1 burner`. */
export function subjectText(sheet: Sheet, observation: Observation): string {
  switch (observation.kind) {
    case 'look':
      return refOf(observation.outcome);
    case 'act':
      return actIn(sheet, observation.id)?.title ?? observation.id;
    case 'fuse': {
      const name = fuseIn(sheet, observation.branch)?.name ?? 'fuse';
      return `${refOf(observation.branch)} ${name}`;
    }
    default:
      return pairText(observation.from, observation.to);
  }
}

/** Two points: `SL to N at E1`, and with both items where they are at two. */
export function pairText(from: string, to: string): string {
  const [one, two] = [from, to].map((point) => terminalWords(nameOf(point)));
  return refOf(from) === refOf(to)
    ? `${one} to ${two} at ${refOf(from)}`
    : `${one} at ${refOf(from)} to ${two} at ${refOf(to)}`;
}

/** `call feed` of `E1.call feed`. */
export const nameOf = (point: string): string => point.slice(point.indexOf('.') + 1);

/** A terminal with its item's code behind: `SL at E1`, `terminal 5 at X1`. */
export const pointSaid = (point: string): string =>
  `${terminalWords(nameOf(point))} at ${refOf(point)}`;

/** What was found, in one clause: `SL to N at E1: no volts in Heating only`. */
export function clauseText(sheet: Sheet, observation: Observation): string {
  const answer = answerText(sheet, observation);
  const mode = modeTitle(sheet, observation.mode);
  const subject = subjectText(sheet, observation);
  switch (observation.kind) {
    case 'look':
      return `${lowerFirst(answer)} (${subject}) in ${mode}`;
    case 'live':
      return `${subject}: ${answer} in ${mode}`;
    case 'dead':
      return `${subject}: ${answer}, isolated`;
    case 'fuse':
      return `${subject}: ${answer}`;
    case 'act':
      return `${subject}: ${answer}`;
  }
}

/** How a fuse link is tested, and which one belongs there. */
export const fuseHow = (rating: number): string =>
  `Take it out, read its rating, test it end to end. ${rating} A belongs there.`;

/** Why a reading shows part of the volts, said with the first such answer of a job; else empty. */
export const partVoltsWhy = (
  { entries }: Pick<Job, 'entries'>,
  observation: Observation,
): string =>
  answerWord(observation) === 'between' &&
  !entries.some((entry) => answerWord(entry.observation) === 'between')
    ? ` ${PART_VOLTS_WHY}`
    : '';

/** What was entered: first how it stands to what a sound system shows, then what it was of. */
export function enteredText(sheet: Sheet, observation: Observation, due: Due): string {
  const answer = answerText(sheet, observation);
  const subject = subjectText(sheet, observation);
  if (mayBeOne(answerWord(observation), due.answer))
    return `As it should be: ${lowerFirst(answer)} (${subject}).`;
  const should = lowerFirst(dueText(sheet, askedAbout(observation), due));
  return `${capital(answer)}; should be: ${should} (${subject}).`;
}

/** What a sound system shows, as a person says it: `live, 230 V`, `Boiler firing`. */
export function dueText(sheet: Sheet, asked: Asked, { answer, figure }: Due): string {
  switch (asked.kind) {
    case 'look':
      return outcomeText(sheet, asked.outcome, answer);
    case 'act':
      return actAnswerText(sheet, asked.id, answer);
    default:
      return `${ANSWER_WORDS[answer]}${figure ? `, ${figure}` : ''}`;
  }
}

/** The state a reading was taken in: its mode, and the instrument where it is not the first. */
export function standText(sheet: Sheet, observation: Observation): string {
  const mode = modeTitle(sheet, observation.mode);
  if (observation.kind !== 'live' || observation.instrument === sheet.instruments[0]?.id)
    return mode;
  const title = sheet.instruments.find(({ id }) => id === observation.instrument)?.title;
  return `${mode}, ${lowerFirst(title ?? observation.instrument)}`;
}

/** Whose word is taken for what nobody has looked at in this visit yet. */
export const onWhoseWord = ({ complaint }: Pick<Job, 'complaint'>): string =>
  complaint ? 'as the customer says' : 'as it was begun';

/** A mode's title; its id where the entry no longer has it. */
export const modeTitle = (sheet: Sheet, id: string): string => modeIn(sheet, id)?.title ?? id;

/** What a test is of: `SL to N at E1`, `Boiler display lit?`. */
export function askedText(sheet: Sheet, asked: Asked): string {
  switch (asked.kind) {
    case 'look': {
      const outcome = outcomeIn(sheet, asked.outcome);
      if (outcome && outcome.oneOf.length > 0)
        return `${itemIn(sheet, outcome.item)!.title.split(',')[0]}: where does it stand?`;
      return `${outcome?.title}?`;
    }
    case 'fuse':
      return `${refOf(asked.branch)} ${fuseIn(sheet, asked.branch)?.name}`;
    case 'act':
      return capital(actIn(sheet, asked.id)?.title ?? asked.id);
    default:
      return pairText(asked.from, asked.to);
  }
}

/** Below this a time is not worth a figure, minutes. */
export const LEAST_MINUTES = 0.75;

/** Minutes in words: `under a minute`, `5 minutes`. */
export function minutesText(minutes: number): string {
  if (minutes < LEAST_MINUTES) return 'under a minute';
  const whole = Math.round(minutes);
  return whole === 1 ? '1 minute' : `${whole} minutes`;
}
