import type { Network } from '../../circuit/index.ts';
import { readInstead } from '../../site/index.ts';
import type { Fault } from '../faults/index.ts';
import type { Signature, Signatures } from '../signatures.ts';
import { mayBeOne, minutesFrom, type Test, type TestAnswer } from '../tests/index.ts';

/** A reading that a cause gives and most of what looks like it does not. */
export interface Proof {
  readonly test: Test;
  readonly answer: TestAnswer;
}

/** What each fault shows, as far as a proof needs it. */
export type Shown = Pick<Signatures, 'tests' | 'sound' | 'faults'>;

/** Readings that tell nearly as much as the best are as good: the quickest of them is taken. */
const NEARLY = 0.9;
/** Least share of what looks alike that a reading must rule out to prove anything. */
const LEAST = 0.5;

/**
 * The reading that proves a part to have failed where none on the way has. First at the part's own
 * terminals: what it needs is there while it does nothing, as of a boiler that supply and call
 * reach it; or it is amiss on its own. Where none of these tells it from most of what looks
 * just like it, any reading that tells it from most of what shows some of the same to eyes and
 * ears: there if one is made there, else where its own leads end, as of a moulded head at the
 * wiring centre. The quickest of those that tell about as much. Null where one
 * made on the way tells as much, where nothing else shows any of it, or no reading tells; and
 * where putting it right is the proof, as of a setting, a cell or a core in the wrong terminal.
 *
 * @param faults those left at the end, of one repair
 * @param mode the one in which whoever follows the sequence stands
 * @param made tests made on the way, by place in the list
 */
export function proofOf(
  network: Network,
  signatures: Shown,
  faults: readonly Fault[],
  mode: string,
  made: ReadonlySet<number>,
): Proof | null {
  const telling = tellingOf(network, signatures, faults);
  if (telling.some(({ at }) => made.has(at))) return null;
  const ways = (['at it', 'where its leads end'] as const).flatMap((where) => {
    const there = telling.filter((one) => one.where === where);
    return [there.filter(({ answer }) => answer === 'live'), there];
  });
  const able = [...ways, telling].find(({ length }) => length > 0) ?? [];
  const most = Math.max(...able.map(({ told }) => told));
  const [best] = able
    .filter(({ told }) => told >= NEARLY * most)
    .map((one) => ({
      ...one,
      minutes: minutesFrom(network, { mode, opened: new Set() }, one.test),
    }))
    .sort((a, b) => a.minutes - b.minutes || b.told - a.told);
  return best ? { test: best.test, answer: best.answer } : null;
}

/** A reading that faults give alike and that most of what looks like them does not. */
interface Telling extends Proof {
  /** Place of the test in the list. */
  readonly at: number;
  /** Weight of what it rules out. */
  readonly told: number;
  /** Whether it is made at the part itself, where its leads end, or neither. */
  readonly where: 'at it' | 'where its leads end' | 'elsewhere';
}

const known = new WeakMap<Shown, Map<string, readonly Telling[]>>();

/** Those of faults of one repair: many sequences of a system end at the same ones. */
function tellingOf(
  network: Network,
  signatures: Shown,
  faults: readonly Fault[],
): readonly Telling[] {
  const ofFaults = known.get(signatures) ?? new Map<string, readonly Telling[]>();
  known.set(signatures, ofFaults);
  const ids = faults.map(({ id }) => id);
  const key = ids.join(' ');
  const before = ofFaults.get(key);
  if (before) return before;
  const found = findTelling(network, signatures, new Set(ids));
  ofFaults.set(key, found);
  return found;
}

function findTelling(
  network: Network,
  { tests, sound, faults: all }: Shown,
  ids: ReadonlySet<string>,
): Telling[] {
  const own = all.filter(({ fault }) => ids.has(fault.id));
  const [first] = own;
  if (first?.fault.origin !== 'part') return [];
  const amiss = tests.flatMap(({ kind }, at) =>
    kind === 'look' && !mayBeOne(first.answers[at]!, sound[at]!) ? at : [],
  );
  const others = all.filter(({ fault }) => fault.repairKey !== first.fault.repairKey);
  const isAlike = (answers: readonly TestAnswer[], at: number) => answers[at] === first.answers[at];
  const [item = ''] = first.fault.id.split(/[:/]/);
  const ends = leadEnds(network, item);
  const whereIs = (test: Test): Telling['where'] => {
    if (test.place?.startsWith(`${item}/`)) return 'at it';
    return 'pair' in test && ends.has(test.pair.from) ? 'where its leads end' : 'elsewhere';
  };
  const telling = (alike: readonly Signature[]): Telling[] => {
    const whole = alike.reduce((sum, { fault }) => sum + fault.weight, 0);
    return tests.flatMap((test, at) => {
      const answer = first.answers[at]!;
      if (!isReading(test) || own.some(({ answers }) => answers[at] !== answer)) return [];
      const told = alike.reduce(
        (sum, { fault, answers }) => sum + (mayBeOne(answers[at]!, answer) ? 0 : fault.weight),
        0,
      );
      return told > LEAST * whole ? [{ at, test, answer, told, where: whereIs(test) }] : [];
    });
  };
  // What it needs reaches it while it does nothing, or it is amiss on its own, as nothing else is
  // that looks just like it.
  const modes = new Set(amiss.map((at) => tests[at]!.mode));
  const alike = others.filter(({ answers }) => amiss.every((at) => isAlike(answers, at)));
  const reached = telling(alike).filter(
    ({ at, test: { kind, mode }, answer, where }) =>
      where === 'at it' &&
      (kind === 'live' ? answer === 'live' && modes.has(mode) : answer !== sound[at]),
  );
  if (reached.length > 0) return reached;
  return telling(others.filter(({ answers }) => amiss.some((at) => isAlike(answers, at))));
}

/** Terminals where the conductors of a part's leads are read; none of what is read at the part. */
function leadEnds(network: Network, item: string): ReadonlySet<string> {
  const terminals = Object.keys(network.items.get(item)?.device.terminals ?? {});
  return new Set(
    terminals.flatMap((terminal) => {
      const point = `${item}.${terminal}`;
      const read = readInstead(network, point);
      return read === null || read === point ? [] : [read];
    }),
  );
}

/** Whether an instrument tells it, or a hand at the part. */
const isReading = (test: Test): boolean =>
  test.kind === 'live' ||
  test.kind === 'dead' ||
  (test.kind === 'act' && ['core', 'part', 'insulation', 'spindle'].includes(test.act));
