import { describe, expect, it } from 'vitest';
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
        const own = rowOf.get(faults[0]!.id)!;
        // What shows the same in any look and is another repair.
        const amiss = signatures.tests.flatMap(({ kind }, i) =>
          kind === 'look' && !mayBeAlike(own[i]!, signatures.sound[i]!) ? [i] : [],
        );
        const rivals = signatures.faults.filter(
          ({ fault, answers }) =>
            fault.repairKey !== faults[0]!.repairKey && amiss.some((i) => answers[i] === own[i]),
        );
        const weight = (list: typeof rivals) =>
          list.reduce((sum, one) => sum + one.fault.weight, 0);
        const tells = (place: number) =>
          faults.every((fault) => rowOf.get(fault.id)![place] === own[place]) &&
          weight(rivals.filter(({ answers }) => !mayBeAlike(answers[place]!, own[place]!))) >
            weight(rivals) / 2;
        const telling = ways
          .get(number)!
          .filter((place) => isReading(signatures.tests[place]!) && tells(place));
        if (proof) {
          // A reading that tells was not made on the way, or it would not be asked for.
          expect(telling, where).toEqual([]);
          const place = at.get(proof.test.id)!;
          expect(isReading(proof.test), where).toBe(true);
          expect(own[place], where).toBe(proof.answer);
          expect(tells(place), where).toBe(true);
          read++;
        } else if (telling.length === 0) {
          // There is none to ask for: no reading at all tells most of what looks alike.
          const able = [...signatures.tests.keys()].filter(
            (place) => isReading(signatures.tests[place]!) && tells(place),
          );
          expect(able, where).toEqual([]);
        }
      }
    }
    expect(read).toBeGreaterThan(0);
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
