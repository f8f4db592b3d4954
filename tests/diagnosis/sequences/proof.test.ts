import { describe, expect, it } from 'vitest';
import type { Fault, Signatures } from '../../../src/diagnosis/index.ts';
import type { TestSequence } from '../../../src/diagnosis/sequences/index.ts';
import { mayBeAlike } from '../../support/answers.ts';
import { ids, shipped } from '../../support/signatures.ts';

/** By end: the tests made on the way to it, by place in the system's list. */
function waysOf({ first, steps }: TestSequence, at: ReadonlyMap<string, number>) {
  const found = new Map<number, readonly number[]>();
  const visit = ({ kind, number }: TestSequence['first'], way: readonly number[]) => {
    if (kind === 'end') return void found.set(number, way);
    const { test, answers } = steps[number - 1]!;
    for (const { next } of answers) visit(next, [...way, at.get(test.id)!]);
  };
  visit(first, []);
  return found;
}

/** Whether an instrument tells it, or a hand at the part. */
const isReading = (test: TestSequence['steps'][number]['test']): boolean =>
  test.kind === 'live' ||
  test.kind === 'dead' ||
  (test.kind === 'act' && ['core', 'part', 'insulation', 'spindle'].includes(test.act));

/**
 * Readings that prove a part, by place in the list: at it, volts where it does nothing, or amiss
 * on its own, as in less than half of what looks just like it; where there are none, those that
 * most of what shows some of the same would answer otherwise.
 */
function tellingOf(
  faults: readonly Fault[],
  { tests, sound, faults: all }: Signatures,
): readonly number[] {
  const rows = all.filter(({ fault }) => faults.some(({ id }) => id === fault.id));
  const [{ answers: own }] = rows as [(typeof rows)[0]];
  const places = [...tests.keys()];
  const amiss = places.filter((i) => tests[i]!.kind === 'look' && !mayBeAlike(own[i]!, sound[i]!));
  const others = all.filter(({ fault }) => fault.repairKey !== faults[0]!.repairKey);
  const weight = (list: typeof others) => list.reduce((sum, one) => sum + one.fault.weight, 0);
  const told = (rivals: typeof others) =>
    places.filter(
      (i) =>
        isReading(tests[i]!) &&
        rows.every(({ answers }) => answers[i] === own[i]) &&
        weight(rivals.filter(({ answers }) => !mayBeAlike(answers[i]!, own[i]!))) >
          weight(rivals) / 2,
    );
  const alike = others.filter(({ answers }) => amiss.every((i) => answers[i] === own[i]));
  const there = told(alike).filter((i) => {
    const { place, kind, mode } = tests[i]!;
    if (place?.split('/')[0] !== faults[0]!.id.split(/[:/]/)[0]) return false;
    if (kind !== 'live') return own[i] !== sound[i];
    return own[i] === 'live' && amiss.some((look) => tests[look]!.mode === mode);
  });
  if (there.length > 0) return there;
  return told(others.filter(({ answers }) => amiss.some((i) => answers[i] === own[i])));
}

describe.each(ids)('%s', (id) => {
  const { signatures, sequences } = shipped(id);
  const at = new Map(signatures.tests.map(({ id: test }, place) => [test, place]));
  const rowOf = new Map(signatures.faults.map(({ fault, answers }) => [fault.id, answers]));

  it('proves no part failed without a reading that would be another: on the way, or at the end', () => {
    let read = 0;
    for (const sequence of sequences) {
      const ways = waysOf(sequence, at);
      for (const { number, faults, sound, oneRepair, proof } of sequence.ends) {
        const where = `${sequence.id}, end ${number}`;
        if (!oneRepair || sound || faults[0]?.origin !== 'part') {
          expect(proof, where).toBeNull();
          continue;
        }
        const telling = tellingOf(faults, signatures);
        const onTheWay = ways.get(number)!.filter((place) => telling.includes(place));
        if (proof) {
          // A reading that tells was not made on the way, or it would not be asked for.
          expect(onTheWay, where).toEqual([]);
          const place = at.get(proof.test.id)!;
          expect(rowOf.get(faults[0]!.id)![place], where).toBe(proof.answer);
          expect(telling, where).toContain(place);
          read++;
        } else if (onTheWay.length === 0) {
          // There is none to ask for: no reading at all tells most of what looks alike.
          expect(telling, where).toEqual([]);
        }
      }
    }
    expect(read).toBeGreaterThan(0);
  });

  // Dark, it is the boiler once volts are read at its own terminals (common practice, no source).
  it('hands no dark boiler over before its supply is read at its strip', () => {
    const dark = sequences.flatMap((sequence) => {
      const ways = waysOf(sequence, at);
      return sequence.ends
        .filter(({ faults, oneRepair }) => oneRepair && faults[0]?.id === 'E1:nothing lit')
        .map(({ number, proof, faults: [fault] }) => ({
          where: `${sequence.id}, end ${number}`,
          live: [...ways.get(number)!, ...(proof ? [at.get(proof.test.id)!] : [])].filter((i) => {
            const { kind, place } = signatures.tests[i]!;
            const isLive = kind === 'live' && place?.startsWith('E1/');
            return isLive && rowOf.get(fault!.id)![i] === 'live';
          }),
        }));
    });
    for (const { where, live } of dark) expect(live, where).not.toEqual([]);
  });
});

// The boiler is decided at its own terminals: supply there, call there, and the call gone when it
// should be (common practice, no source).
it.each([
  ['combi-two-wire', 'no-heating-no-hot-water', 'live:E1.call return|E1.N@heating', 'live'],
  ['combi-wireless', 'pump-never-stops', 'live:E1.call return|E1.N@standby', 'dead'],
  ['heat-only-mid-position', 'pump-never-stops', 'live:E1.pump L|E1.pump N@standby', 'live'],
])('%s, %s: handed over with the call read at the boiler', (system, start, test, answer) => {
  const { ends } = shipped(system).sequences.find(({ id }) => id === start)!;
  const handed = ends.filter(({ faults }) => faults[0]?.who === 'Gas Safe registered engineer');
  expect(handed.map(({ proof }) => [proof?.test.id, proof?.answer])).toContainEqual([test, answer]);
});

// A mid-position head has moulded leads: it is read where white, grey and orange end in the wiring
// centre, X1 (common practice, no source).
it('proves a head with moulded leads by a live of its own leads', () => {
  const read = shipped('heat-only-mid-position').sequences.flatMap(({ id, ends }) =>
    ends.flatMap(({ faults, proof }) =>
      faults[0]?.id.startsWith('Q2') && proof?.test.kind === 'live'
        ? { where: id, from: proof.test.pair.from }
        : [],
    ),
  );
  expect(read.length).toBeGreaterThan(0);
  for (const { where, from } of read) expect(['X1.4', 'X1.5', 'X1.6'], where).toContain(from);
});
