import { answerWord, type Observation } from '../diagnosis/inference/index.ts';
import { askedAbout, askedKey } from './asked.ts';
import type { Asked } from './findings.ts';
import { type Entry, type Job, lookAt, openEntries, roundOf, setLook } from './job.ts';
import type { Sheet, SheetMode, SheetOutcome } from './sheet.ts';

/** One outcome that must be so, or not so, after a repair. */
export interface ProvingLook {
  readonly outcome: SheetOutcome;
  readonly due: 'seen' | 'not seen' | 'comes and goes';
  /** What was found since the repair; null until it is looked at. */
  readonly found: Extract<Observation, { kind: 'look' }>['answer'] | null;
}

/** What a mode is brought about for once more. */
export type Purpose = 'repair' | 'safety' | 'rest';

/** A mode to bring about once more, with all that must be seen in it. */
export interface ProvingMode {
  readonly mode: SheetMode;
  readonly purpose: Purpose;
  readonly looks: readonly ProvingLook[];
}

/** A reading taken before the repair, to be taken again. */
export interface ProvingReading {
  readonly before: Entry;
  readonly asked: Asked;
  /** The same reading since the repair. */
  readonly after: Entry | undefined;
}

/** In which order modes are proved. */
const PURPOSES: readonly Purpose[] = ['repair', 'safety', 'rest'];

/** What a sound system answers to a reading, where that is known here. */
export type DueOf = ((asked: Asked) => string | undefined) & {
  /** Modes in which the cause that was mended would have shown to the eye, where known. */
  readonly shownIn?: readonly string[];
};
const UNKNOWN: DueOf = () => undefined;

/**
 * Every mode that can be brought about with the supply on, and what must be seen in it: first
 * the fewest that prove the repair, then those in which a safety device acts, then the rest.
 */
export function provingModes(sheet: Sheet, job: Job, dueOf: DueOf = UNKNOWN): ProvingMode[] {
  const repair = modesOfRepair(sheet, job, dueOf);
  const modes = provable(sheet).map(
    (mode): ProvingMode => ({
      mode,
      purpose: repair.includes(mode.id) ? 'repair' : mode.safety.length > 0 ? 'safety' : 'rest',
      looks: looksDue(sheet, mode, job).map((outcome) => {
        const entry = lookAt(job, mode.id, outcome.id);
        const found = entry?.observation.kind === 'look' ? entry.observation.answer : null;
        return { outcome, due: dueIn(mode, outcome.id), found };
      }),
    }),
  );
  return PURPOSES.flatMap((purpose) => modes.filter((one) => one.purpose === purpose));
}

/**
 * What is looked at in a mode: of what stands in one of several positions, the one that is due;
 * what no mode changes, only where it was looked at before.
 */
function looksDue(sheet: Sheet, mode: SheetMode, { entries }: Job): SheetOutcome[] {
  const looked = new Set(
    entries.flatMap(({ observation: o }) =>
      o.kind === 'look' && o.mode === mode.id ? o.outcome : [],
    ),
  );
  return sheet.outcomes.filter(
    ({ id, oneOf, steady }) =>
      (dueIn(mode, id) !== 'not seen' || !oneOf.some((other) => dueIn(mode, other) === 'seen')) &&
      (steady === null || looked.has(id)),
  );
}

const provable = (sheet: Sheet) =>
  sheet.modes.filter(({ testable, isolated }) => testable && !isolated);

const dueIn = (mode: SheetMode, outcome: string) => mode.due[outcome] ?? 'not seen';

/**
 * The fewest modes that prove the repair: in them everything that was astray before it, seen or
 * read, can be seen right again. A mode counts for a thing only where that very thing was astray
 * in it: what was never astray there would be right without the repair too. One of them is a mode
 * in which the cause that was mended would have shown, whatever it was found by.
 */
export function modesOfRepair(sheet: Sheet, job: Job, dueOf: DueOf = UNKNOWN): readonly string[] {
  const round = roundOf(job);
  const astray = new Map(provable(sheet).map(({ id }) => [id, new Set<string>()]));
  const latest = new Map<string, Entry>();
  for (const entry of job.entries)
    if (entry.round < round) latest.set(`${entry.round} ${askedKey(entry.observation)}`, entry);
  for (const { observation } of latest.values()) {
    const thing = thingAstray(sheet, observation, dueOf);
    if (thing !== null) astray.get(observation.mode)?.add(thing);
  }
  if (round > 0) for (const mode of dueOf.shownIn ?? []) astray.get(mode)?.add(THE_CAUSE);
  return fewest(astray);
}

/** Stands among what was astray for the cause itself. */
const THE_CAUSE = 'the cause';

/** Name of what an observation found astray, the same in every mode; null where it was right. */
function thingAstray(sheet: Sheet, observation: Observation, dueOf: DueOf): string | null {
  if (observation.kind === 'look') {
    const mode = sheet.modes.find(({ id }) => id === observation.mode);
    const due = mode ? dueIn(mode, observation.outcome) : observation.answer;
    return due === observation.answer ? null : `${observation.outcome} ${due}`;
  }
  const asked = askedAbout(observation);
  const due = dueOf(asked);
  if (due === undefined || due === answerWord(observation)) return null;
  return JSON.stringify({ ...asked, mode: due });
}

/** The fewest sets that hold, together, all that any of the sets holds; the earliest such. */
export function fewest(sets: ReadonlyMap<string, ReadonlySet<string>>): readonly string[] {
  const all = new Set([...sets.values()].flatMap((set) => [...set]));
  const names = [...sets.keys()].filter((name) => sets.get(name)!.size > 0);
  for (let size = 0; size < names.length; size++) {
    const found = chosen(sets, names, size, all);
    if (found) return found;
  }
  return names;
}

/** The first way of choosing that many of the names whose sets hold all that is left. */
function chosen(
  sets: ReadonlyMap<string, ReadonlySet<string>>,
  names: readonly string[],
  size: number,
  left: ReadonlySet<string>,
): string[] | null {
  if (left.size === 0) return [];
  if (size === 0) return null;
  for (const [i, name] of names.entries()) {
    const rest = new Set([...left].filter((thing) => !sets.get(name)!.has(thing)));
    const further = chosen(sets, names.slice(i + 1), size - 1, rest);
    if (further) return [name, ...further];
  }
  return null;
}

/** Whether everything that must be seen in a mode was seen so. */
export const isProved = ({ looks }: ProvingMode): boolean =>
  looks.every(({ found, due }) => found === due);

/** The job with all of a mode as it should be that was not said to be otherwise. */
export const setAsDue = (job: Job, { mode, looks }: ProvingMode): Job =>
  looks
    .filter(({ found }) => found === null)
    .reduce((open, { outcome, due }) => setLook(open, mode.id, outcome.id, due), job);

/**
 * The job with an outcome of a mode not as it should be; said again, as it should be where the
 * rest of the mode is, and not looked at where it is not.
 */
export function turnAstray(job: Job, { mode, looks }: ProvingMode, outcome: string): Job {
  const look = looks.find((one) => one.outcome.id === outcome);
  if (!look) return job;
  const { found, due } = look;
  if (found === null || found === due)
    return setLook(job, mode.id, outcome, due === 'seen' ? 'not seen' : 'seen');
  const others = looks.filter((one) => one !== look);
  const restIsDue = others.some((one) => one.found === one.due);
  return setLook(job, mode.id, outcome, restIsDue ? due : null);
}

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

/** A reading of the boiler's supply, and what was read since the repair. */
export interface SupplyReading {
  readonly asked: Extract<Asked, { kind: 'live' }>;
  readonly after: Entry | undefined;
}

/**
 * The boiler's supply, read last with the boiler firing: polarity right, and next to nothing
 * between neutral and earth.
 */
export const supplyReadings = ({ supply, instruments }: Sheet, job: Job): SupplyReading[] =>
  (supply?.pairs ?? []).map(([from, to]) => {
    const { mode } = supply!;
    const instrument = instruments[0]!.id;
    const asked = { kind: 'live', mode, from, to, instrument, current: 'ac' } as const;
    const key = JSON.stringify(asked);
    return {
      asked,
      after: openEntries(job).findLast(({ observation }) => askedKey(observation) === key),
    };
  });

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
