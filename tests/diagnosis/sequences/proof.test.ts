import { describe, expect, it } from 'vitest';
import type { TestSequence } from '../../../src/diagnosis/sequences/index.ts';
import { mayBeAlike } from '../../support/answers.ts';
import { ids, shipped } from '../../support/signatures.ts';

/** Ends by number that are come to without a hand laid on anything. */
function endsByLooks({ first, steps }: TestSequence): Set<number> {
  const found = new Set<number>();
  const visit = ({ kind, number }: TestSequence['first']) => {
    if (kind === 'end') return void found.add(number);
    const { test, answers } = steps[number - 1]!;
    if (test.kind === 'look') for (const { next } of answers) visit(next);
  };
  visit(first);
  return found;
}

describe.each(ids)('%s', (id) => {
  const { signatures, sequences } = shipped(id);
  const at = new Map(signatures.tests.map(({ id: test }, place) => [test, place]));
  const rowOf = new Map(signatures.faults.map(({ fault, answers }) => [fault.id, answers]));

  it('proves no part failed by looks alone: a reading at it would be another', () => {
    for (const sequence of sequences) {
      const looked = endsByLooks(sequence);
      for (const { number, faults, sound, oneRepair, proof } of sequence.ends) {
        const where = `${sequence.id}, end ${number}`;
        const isPart = oneRepair && !sound && faults[0]?.origin === 'part';
        if (!looked.has(number) || !isPart) {
          expect(proof, where).toBeNull();
          continue;
        }
        if (!proof) continue;
        const place = at.get(proof.test.id)!;
        for (const fault of faults) expect(rowOf.get(fault.id)![place], where).toBe(proof.answer);
        // What shows the same in any look and is another repair mostly reads otherwise.
        const own = rowOf.get(faults[0]!.id)!;
        const amiss = signatures.tests.flatMap(({ kind }, i) =>
          kind === 'look' && !mayBeAlike(own[i]!, signatures.sound[i]!) ? [i] : [],
        );
        const rivals = signatures.faults.filter(
          ({ fault, answers }) =>
            fault.repairKey !== faults[0]!.repairKey && amiss.some((i) => answers[i] === own[i]),
        );
        const weight = (list: typeof rivals) =>
          list.reduce((sum, one) => sum + one.fault.weight, 0);
        const other = rivals.filter(({ answers }) => !mayBeAlike(answers[place]!, proof.answer));
        expect(weight(other), where).toBeGreaterThan(weight(rivals) / 2);
      }
    }
  });
});

// The boiler is decided at its own terminals: supply there, call there, and the call gone when it
// should be (common practice, no source).
it.each([
  ['combi-two-wire', 'no-heating-no-hot-water', 'live:E1.call return|E1.N@heating', 'live'],
  ['combi-wireless', 'pump-never-stops', 'live:E1.call return|E1.N@standby', 'dead'],
  ['system-boiler-internal-pump', 'no-heating-no-hot-water', 'live:E1.SL|E1.N@heating', 'live'],
])('%s, %s: handed over with the call read at the boiler', (system, start, test, answer) => {
  const { ends } = shipped(system).sequences.find(({ id }) => id === start)!;
  const handed = ends.filter(({ faults }) => faults[0]?.who === 'Gas Safe registered engineer');
  expect(handed.map(({ proof }) => [proof?.test.id, proof?.answer])).toContainEqual([test, answer]);
});
