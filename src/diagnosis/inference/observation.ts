import { classOf, type Instrument, isExtraLow } from '../../circuit/index.ts';
import type { Ohms, Volts } from '../../units/index.ts';
import type { Answer } from '../answers.ts';
import {
  type DeadAnswer,
  deadAnswer,
  type FuseAnswer,
  type InspectAnswer,
  type TestAnswer,
} from '../tests/index.ts';

/** Something an engineer reports. Plain data: a case is saved as a list of them. */
export type Observation = Look | LiveReading | DeadReading | FuseFound | Done;

interface Reported {
  readonly mode: string;
}

/** An outcome looked at, listened to or felt. */
export interface Look extends Reported {
  readonly kind: 'look';
  /** As in `E1.burner`. */
  readonly outcome: string;
  readonly answer: 'seen' | 'not seen' | 'comes and goes';
}

/** What an instrument shows between two points with the supply on, or while proving dead. */
export interface LiveReading extends Reported {
  readonly kind: 'live';
  readonly from: string;
  readonly to: string;
  readonly instrument: Instrument['id'];
  /** Its class, or the figure. */
  readonly answer: Answer | TypedVolts;
}

/** A voltage as the engineer typed it. */
export interface TypedVolts {
  readonly volts: Volts;
  readonly current: 'ac' | 'dc';
}

/** A resistance as the engineer typed it. */
export interface TypedOhms {
  readonly ohms: Ohms;
  /** Up to how many ohms these two points count as joined, where not as usual; see `joinedOhms`. */
  readonly joined?: Ohms | undefined;
}

/** A resistance between two points, isolated and proved dead. */
export interface DeadReading extends Reported {
  readonly kind: 'dead';
  readonly from: string;
  readonly to: string;
  /** Its class, or the figure; infinity where the instrument shows none. */
  readonly answer: DeadAnswer | TypedOhms;
}

/** A fuse link taken out, isolated and proved dead. */
export interface FuseFound extends Reported {
  readonly kind: 'fuse';
  /** Branch id, as in `Q1/fuse`. */
  readonly branch: string;
  readonly answer: FuseAnswer;
}

/** Something that hands did at an open place, by the id of its test; see `ActTest`. */
export interface Done extends Reported {
  readonly kind: 'act';
  readonly id: string;
  readonly answer:
    | 'live'
    | 'dead'
    | 'seen'
    | 'not seen'
    | DeadAnswer
    | InspectAnswer
    | 'comes and goes';
}

/** The observation's answer as one word. */
export function answerWord({ answer }: Observation): TestAnswer {
  if (typeof answer === 'string') return answer;
  if ('ohms' in answer) return deadAnswer(answer.ohms, answer.joined);
  if (answer.current === 'dc') return isExtraLow(answer.volts) ? 'dc' : 'no dc';
  return classOf(answer.volts);
}

/** The figure the engineer typed, volts or ohms; null where only a class was given. */
export function typedFigure({ answer }: Observation): number | null {
  if (typeof answer === 'string') return null;
  return 'ohms' in answer ? answer.ohms : answer.volts;
}

/** Whether a reading is one of direct voltage. */
export function isDirect({ answer }: LiveReading): boolean {
  return typeof answer === 'string'
    ? answer === 'dc' || answer === 'no dc'
    : answer.current === 'dc';
}
