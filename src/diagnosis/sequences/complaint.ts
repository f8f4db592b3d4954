import type { Symptom } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { symptomName } from '../../words/index.ts';
import { type Fault, HISTORIES, type History } from '../faults/index.ts';
import { BEYOND_TESTS, PRIOR } from '../inference/index.ts';
import type { Suspect } from '../planning/index.ts';
import type { Signature, Signatures } from '../signatures.ts';
import { answersWanted, givesAll, modeSeenIn, type WantedAnswer } from '../signs.ts';

/** A fault that may be the case, or that nothing is wrong. */
export interface Open extends Suspect {
  /** Null for the sound circuit. */
  readonly fault: Fault | null;
}

/** What a sequence starts from. */
export interface Start {
  /** Id of the symptom; `anything`, `other-seen` or `nothing-seen` where the start is no symptom. */
  readonly id: string;
  readonly title: string;
  /** Mode in which whoever starts stands. */
  readonly mode: string;
  /** What the customer says of the time before. */
  readonly history: History;
  /** What may be the case, in the order faults are made; the sound circuit last. */
  readonly open: readonly Open[];
  /** Answers by which whoever starts here is known: all those of any one of these. */
  readonly shows: readonly (readonly WantedAnswer[])[];
}

/** Histories of which each complaint has its order. What comes and goes has an order of its own. */
export const ORDERED_HISTORIES = HISTORIES.slice(0, 2);

/** Start of someone who has looked at nothing. */
export const ANYTHING = 'anything';
/** Start of someone who finds every outcome as it should be. */
export const NOTHING_SEEN = 'nothing-seen';
/** Start of someone who sees something that no symptom describes. */
export const OTHER_SEEN = 'other-seen';

/** Whether a start is of somebody who sees that something is wrong, and so what may be the case is few. */
export const isComplaint = ({ id }: Pick<Start, 'id'>): boolean =>
  id !== ANYTHING && id !== NOTHING_SEEN;

/**
 * Every start of a system: from nothing looked at; from each symptom that a fault of it gives;
 * from anything else that is seen; and from nothing seen. Each fault that any test finds is
 * open in the first and in at least one of the others.
 *
 * @param symptoms by entry id.
 * @param history what the customer says of the time before: it decides how likely each fault is.
 */
export function startsOf(
  symptoms: ReadonlyMap<string, Pick<Symptom, 'title' | 'complaint' | 'shows'>>,
  network: Network,
  all: Signatures,
  history: History = HISTORIES[0],
): Start[] {
  const signatures = inHistory(all, history);
  const any = anything(network, signatures, history);
  const complaints = [...symptoms].flatMap(
    ([id, symptom]) => complaintOf(id, symptom, network, signatures, history) ?? [],
  );
  const none = nothingSeen(network, signatures, history);
  const known = new Set([...complaints, none].flatMap(({ open }) => open.map((o) => o.fault?.id)));
  const rest = any.open.filter(({ fault }) => !known.has(fault?.id));
  const other = {
    id: OTHER_SEEN,
    title: 'Something else is not as it should be',
    mode: firstMode(network),
    history,
    open: rest,
    shows: [],
  };
  return [any, ...complaints, ...(rest.length > 0 ? [other] : []), none];
}

/** The same with the weights of a history. */
export function inHistory(signatures: Signatures, history: History): Signatures {
  if (history === HISTORIES[0]) return signatures;
  const weighed = ({ fault, answers }: Signature): Signature => ({
    fault: { ...fault, weight: fault.shares[history] },
    answers,
  });
  return { ...signatures, faults: signatures.faults.map(weighed) };
}

/**
 * Something may be wrong and nothing has been looked at: every fault that any test finds,
 * and the sound circuit as likely as the inference holds it to be.
 */
function anything(network: Network, signatures: Signatures, history: History): Start {
  const faults = openFaults(signatures);
  return {
    id: ANYTHING,
    title: 'Something is wrong, nothing looked at yet',
    mode: firstMode(network),
    history,
    open: [...faults, soundOf(signatures)],
    shows: [[]],
  };
}

/** Every outcome is as it should be in every mode: what hides from eyes, ears and hands. */
function nothingSeen(network: Network, signatures: Signatures, history: History): Start {
  const looks = looksOf(signatures);
  const faults = openFaults(signatures).filter(({ answers }) =>
    looks.every((place) => answers[place] === signatures.sound[place]),
  );
  return {
    id: NOTHING_SEEN,
    title: 'Everything looks as it should',
    mode: firstMode(network),
    history,
    open: [...faults, soundOf(signatures)],
    shows: [looks.map((test) => ({ test, answer: signatures.sound[test]! }))],
  };
}

/**
 * A complaint: the faults that give an appearance of a symptom which this system can show and
 * shows only when not sound. Undefined where no fault gives it.
 */
function complaintOf(
  id: string,
  symptom: Pick<Symptom, 'title' | 'complaint' | 'shows'>,
  network: Network,
  signatures: Signatures,
  history: History,
): Start | undefined {
  const able = symptom.shows.flatMap((appearance) =>
    answersWanted(appearance, network, signatures.tests)
      .filter((wanted) => !givesAll(wanted, signatures.sound))
      .map((wanted) => ({ appearance, wanted })),
  );
  const open = openFaults(signatures).filter(({ answers }) =>
    able.some(({ wanted }) => givesAll(wanted, answers)),
  );
  if (open.length === 0) return undefined;
  return {
    id,
    title: symptomName(symptom),
    mode: modeSeenIn(able[0]!.appearance),
    history,
    open,
    shows: able.map(({ wanted }) => wanted),
  };
}

/**
 * What is open at a start, by what is seen once every outcome has been looked at in every
 * mode: one list for each pattern, in order of its first.
 */
export function classesByLooks(signatures: Signatures, open: readonly Open[]): Open[][] {
  const looks = looksOf(signatures);
  return [
    ...Map.groupBy(open, ({ answers }) => looks.map((place) => answers[place]).join()).values(),
  ];
}

/** Weight of the sound circuit: the share that the inference gives it beside single faults. */
export function soundWeight({ faults }: Pick<Signatures, 'faults'>): number {
  const all = faults.reduce((sum, { fault }) => sum + fault.weight, 0);
  return (all * PRIOR.sound) / (1 - PRIOR.sound - BEYOND_TESTS - PRIOR.pair);
}

const looksOf = ({ tests }: Signatures): number[] =>
  tests.flatMap(({ kind }, place) => (kind === 'look' ? [place] : []));

const openFaults = ({ faults }: Signatures): Open[] =>
  faults.map(({ fault, answers }) => ({
    fault,
    repairKey: fault.repairKey,
    weight: fault.weight,
    answers,
  }));

const soundOf = (signatures: Signatures): Open => ({
  fault: null,
  repairKey: null,
  weight: soundWeight(signatures),
  answers: signatures.sound,
});

const firstMode = ({ system }: Network): string =>
  Object.keys(system.modes).find((mode) => system.modes[mode]!.testable)!;
