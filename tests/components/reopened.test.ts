import { expect, test } from 'vitest';
import { reopenedIn } from '../../src/components/sequence/words.ts';
import { shipped } from '../support/signatures.ts';

/** A sequence of the two-wire combi, with the step at which something is tested at a place. */
function sequenceOf(start: string) {
  const sequence = shipped('combi-two-wire').sequences.find(({ id }) => id === start)!;
  const reopened = reopenedIn(sequence);
  return sequence.steps.map(({ number, opens, test: { place, mode, kind } }) => ({
    number,
    at: place,
    mode,
    kind,
    opens,
    reopened: reopened.has(number),
  }));
}

// HSG85; GS38: nothing is opened but dead, and nothing is left open while another place is read.
test('a stat hung back on its plate for a reading at the boiler comes off again, isolated', () => {
  const steps = sequenceOf('no-heating-hot-water-works');
  const atStat = steps.filter(({ at }) => at === 'B1/backplate');
  const [first] = atStat;
  expect(first).toMatchObject({ opens: true, reopened: false });
  // It was taken off for its contact; since then the boiler has been read with the supply on.
  const read = atStat.find(({ kind, mode }) => kind === 'live' && mode === 'heating')!;
  expect(read).toMatchObject({ opens: false, reopened: true });
});

test('a cover that stays off from one dead test to the next does not come off again', () => {
  const steps = sequenceOf('heating-never-stops');
  expect(steps.every(({ mode }) => mode === 'isolated')).toBe(true);
  expect(steps.filter(({ reopened }) => reopened)).toEqual([]);
});

test('a look with the supply on opens nothing', () => {
  for (const { at, reopened } of sequenceOf('no-heating-no-hot-water'))
    expect([at, reopened]).toEqual([null, false]);
});
