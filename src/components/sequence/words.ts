import { ISOLATED } from '../../../schemas/index.ts';
import { coresOf, HISTORIES, type History } from '../../diagnosis/index.ts';
import {
  ANYTHING,
  type Next,
  NOTHING_SEEN,
  OTHER_SEEN,
  type SequenceEnd,
  type SequenceFigures,
  type Step,
  type StepAnswer,
  type TestSequence,
} from '../../diagnosis/sequences/index.ts';
import {
  actWords,
  answerLimits,
  JOINED_OHMS,
  joinedOhms,
  OPEN_OHMS,
  type Test,
  type TestAnswer,
} from '../../diagnosis/tests/index.ts';
import type { ComputedSystem } from '../../reference/index.ts';
import { cableWords, fuseWords, itemOf, testPairWords } from '../../wiring/index.ts';
import { capital } from '../../words/index.ts';
import { answerWords, outcomeOf } from '../diagnosis/test-words.ts';
import { href } from '../text/href.ts';
import { ohmsText } from '../text/quantities.ts';
import { count } from '../text/words.ts';

/**
 * Whether a sequence has its own page: where one repair is left from the start, the symptom's
 * page says all there is.
 */
export const hasPage = ({ id, first }: SequenceFigures): boolean =>
  first.kind === 'step' || OF_NO_SYMPTOM.includes(id);

/** Address of a sequence's own page, or of what its symptom's page says of this system. */
export const sequenceHref = ({ id: system }: ComputedSystem, sequence: SequenceFigures): string =>
  href(
    hasPage(sequence)
      ? `/systems/${system}/sequences/${sequence.id}/${pathOf(sequence.history)}`
      : `/symptoms/${sequence.id}/#in-${system}`,
  );

/** What the customer says of the time before, as the end of a page's address. */
const pathOf = (history: History): string =>
  history === HISTORIES[0] ? '' : `${history.replaceAll(' ', '-')}/`;

/** Anchor of a step or an end on its sequence's page. */
export const anchorOf = ({ kind, number }: Next): string => `${kind}-${number}`;

/** What an answer's word stands for in figures; empty where it needs none. */
export function limitsOf({ network }: ComputedSystem, answer: TestAnswer, test: Test): string {
  // Its answers are their own limits.
  if (test.kind === 'act' && test.act === 'insulation') return '';
  const [from, to] =
    test.kind === 'dead' ? [test.pair.from, test.pair.to] : test.kind === 'act' ? test.points : [];
  const joined = Math.round(from && to ? joinedOhms(network, from, to) : JOINED_OHMS);
  switch (answer) {
    case 'joined':
      return `up to ${ohmsText(joined)}`;
    case 'open':
      return `${ohmsText(OPEN_OHMS)} or more`;
    case 'no short':
      return `over ${ohmsText(joined)}`;
    case 'resistance':
      return 'anything in between';
    default:
      return answerLimits(answer, test.kind === 'act' ? test.act : undefined);
  }
}

/** A test in a few words, without its mode: `Load L to load N at the fused spur Q1`. */
export function testText({ network }: ComputedSystem, test: Test): string {
  if (test.kind === 'look') {
    return `${outcomeOf(network, test.outcome)?.title ?? test.outcome} (${itemOf(test.outcome)})?`;
  }
  if (test.kind === 'fuse') return capital(fuseWords(network, test.branch));
  if (test.kind === 'act') return actWords(network, test).title;
  const said = testPairWords(network, test.pair);
  return test.kind === 'dead' ? `Ohms, ${said}` : capital(said);
}

/** What is left, in one line: a fault, or how many and the likeliest of them. */
export function endText(end: SequenceEnd): string {
  const { faults, sound } = end;
  const [first] = faults;
  if (!first) return 'No fault found: as this page shows';
  if (sound) return `No fault found, or ${count(faults.length, 'fault')} not found by looking`;
  return faults.length === 1 || isNearlyCertain(end)
    ? first.title
    : `${first.title}, or ${count(faults.length - 1, 'other')}`;
}

/** Share of what is left from which one repair is acted on, and the rest kept in mind. */
const NEARLY_CERTAIN = 0.95;

/** Whether one repair of several is all but certain: the others are what looking may have missed. */
export const isNearlyCertain = ({ oneRepair, sound, leading }: SequenceEnd): boolean =>
  !oneRepair && !sound && leading >= NEARLY_CERTAIN;

/** An answer in words: of something found, what it is. */
export const stepAnswerWords = (
  { network }: ComputedSystem,
  sequence: TestSequence,
  test: Test,
  { answer, finds, next }: StepAnswer,
): string => {
  const end = next.kind === 'end' ? sequence.ends[next.number - 1] : undefined;
  return finds !== null && end ? `found: ${endText(end)}` : answerWords(network, test, answer);
};

/**
 * Finds of a step by the cables that they are at, the cables by their references; one that two
 * cables share stands under both, one at no core comes last.
 */
export function cablesOf<T extends Pick<StepAnswer, 'next'>>(
  { network }: ComputedSystem,
  { ends }: TestSequence,
  found: readonly T[],
): [cable: string, finds: T[]][] {
  const at = found.flatMap((one) => {
    const fault = one.next.kind === 'end' ? ends[one.next.number - 1]!.faults[0] : undefined;
    const cables = fault ? [...new Set(coresOf(fault.edit).map(({ cable }) => cable))] : [];
    return (cables.length > 0 ? cables : ['']).map((cable) => ({ cable, one }));
  });
  return [...Map.groupBy(at, ({ cable }) => cable)]
    .toSorted(([a], [b]) => Number(a === '') - Number(b === '') || compareRefs(a, b))
    .map(([cable, all]) => [
      cable === '' ? 'elsewhere in the box' : cableWords(network, cable),
      all.map(({ one }) => one),
    ]);
}
const compareRefs = (a: string, b: string) => a.localeCompare(b, undefined, { numeric: true });

/** Minutes as said: `9.2 min`, `under 1 min`. */
export const minutesText = (minutes: number): string =>
  minutes < 0.95 ? 'under 1 min' : `${minutes.toFixed(minutes < 9.95 ? 1 : 0)} min`;

/** Per cent of a share: `34 %`, `under 1 %`. */
export function percentText(share: number): string {
  if (share > 0 && share < 0.01) return 'under 1\u00a0%';
  return `${Math.round(100 * share) || 0}\u00a0%`;
}

/** How good a sequence is known to be. */
export const provenText = ({ proven, gap }: TestSequence): string =>
  proven
    ? 'no order takes less'
    : `no order takes more than ${percentText(Math.ceil(gap * 100) / 100)} less`;

/** By step number: the step it is come to from; none for the first. */
export function parentsOf({ steps }: TestSequence): ReadonlyMap<string, Step> {
  return new Map(
    steps.flatMap((step) => step.answers.map(({ next }) => [anchorOf(next), step] as const)),
  );
}

/**
 * The steps for which a cover comes off that had gone back on: since it was last off the supply
 * was put back for something else, and every lid but the one that is read at goes on for that.
 */
export function reopenedIn(sequence: TestSequence): ReadonlySet<number> {
  const parents = parentsOf(sequence);
  const isReopened = ({ number, test: { place } }: Step): boolean => {
    if (place === null) return false;
    let isShut = false;
    for (let at = parents.get(`step-${number}`); at; at = parents.get(`step-${at.number}`)) {
      if (at.test.place === place) return isShut;
      isShut ||= at.test.mode !== ISOLATED;
    }
    return false;
  };
  return new Set(sequence.steps.filter(isReopened).map(({ number }) => number));
}

/** Starts that no symptom names. */
export const OF_NO_SYMPTOM: readonly string[] = [ANYTHING, OTHER_SEEN, NOTHING_SEEN];
