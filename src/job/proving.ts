import type { Observation } from '../diagnosis/inference/index.ts';
import type { Asked } from './findings.ts';
import { type Entry, type Job, lookAt, openEntries, roundOf } from './job.ts';
import type { Sheet, SheetMode, SheetOutcome } from './sheet.ts';

/** One outcome that must be so, or not so, after a repair. */
export interface ProvingLook {
  readonly outcome: SheetOutcome;
  readonly due: 'seen' | 'not seen' | 'comes and goes';
  /** What was found since the repair; null until it is looked at. */
  readonly found: Extract<Observation, { kind: 'look' }>['answer'] | null;
}

/** A mode to bring about once more, with all that must be seen in it. */
export interface ProvingMode {
  readonly mode: SheetMode;
  readonly looks: readonly ProvingLook[];
}

/** A reading taken before the repair, to be taken again. */
export interface ProvingReading {
  readonly before: Entry;
  readonly asked: Asked;
  /** The same reading since the repair. */
  readonly after: Entry | undefined;
}

/** Every mode that can be brought about with the supply on, and what must be seen in it. */
export const provingModes = (sheet: Sheet, job: Job): ProvingMode[] =>
  sheet.modes
    .filter(({ testable, isolated }) => testable && !isolated)
    .map((mode) => ({
      mode,
      looks: sheet.outcomes.map((outcome) => {
        const entry = lookAt(job, mode.id, outcome.id);
        const found = entry?.observation.kind === 'look' ? entry.observation.answer : null;
        return { outcome, due: mode.due[outcome.id] ?? 'not seen', found };
      }),
    }));

/** Readings taken before the last repair, the latest of each, with the same since. */
export function provingReadings(job: Job): ProvingReading[] {
  const round = roundOf(job);
  const before = new Map<string, Entry>();
  for (const entry of job.entries) {
    if (entry.round < round && entry.observation.kind !== 'look')
      before.set(askedKey(entry.observation), entry);
  }
  return [...before].map(([key, entry]) => ({
    before: entry,
    asked: askedAbout(entry.observation),
    after: openEntries(job).findLast(({ observation }) => askedKey(observation) === key),
  }));
}

/** What remains to be looked at, and what was not as it must be. */
export function provingCount(modes: readonly ProvingMode[]): {
  readonly all: number;
  readonly proved: number;
  readonly astray: number;
} {
  const looks = modes.flatMap((mode) => mode.looks);
  const looked = looks.filter(({ found }) => found !== null);
  const proved = looked.filter(({ found, due }) => found === due).length;
  return { all: looks.length, proved, astray: looked.length - proved };
}

/** What an observation answers. */
export function askedAbout(observation: Observation): Asked {
  const { mode } = observation;
  switch (observation.kind) {
    case 'look':
      return { kind: 'look', mode, outcome: observation.outcome };
    case 'act':
      return { kind: 'act', mode, id: observation.id };
    case 'fuse':
      return { kind: 'fuse', mode, branch: observation.branch };
    case 'dead':
      return { kind: 'dead', mode, from: observation.from, to: observation.to };
    case 'live': {
      const { from, to, instrument, answer } = observation;
      const direct =
        typeof answer === 'string'
          ? answer === 'dc' || answer === 'no dc'
          : answer.current === 'dc';
      return { kind: 'live', mode, from, to, instrument, current: direct ? 'dc' : 'ac' };
    }
  }
}

const askedKey = (observation: Observation): string => JSON.stringify(askedAbout(observation));
