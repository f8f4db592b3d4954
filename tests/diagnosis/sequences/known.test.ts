import { describe, expect, it } from 'vitest';
import { type Step, savingOf, type TestSequence } from '../../../src/diagnosis/sequences/index.ts';
import { isAnswer } from '../../support/answers.ts';
import { shipped } from '../../support/signatures.ts';

/** The order that ships. */
function sequenceOf(system: string, start: string): TestSequence {
  const found = shipped(system).sequences.find(({ id }) => id === start);
  if (!found) throw new RangeError(`${system} has no start ${start}`);
  return found;
}

/** The steps that one fault's own readings lead through, and the faults left at the end. */
function follow(system: string, { first, steps, ends }: TestSequence, fault: string) {
  const { signatures } = shipped(system);
  const own = signatures.faults.find((one) => one.fault.id === fault);
  if (!own) throw new RangeError(`${system} has no fault ${fault}`);
  const taken: { step: Step; answer: string }[] = [];
  let at = first;
  while (at.kind === 'step') {
    const step = steps[at.number - 1]!;
    const told = own.answers[signatures.tests.findIndex(({ id }) => id === step.test.id)]!;
    // What a look inside would find is overlooked: then a measurement must tell.
    const answer = told === 'found' ? 'nothing' : told;
    taken.push({ step, answer });
    at = step.answers.find((one) => isAnswer(one.answer, answer))!.next;
  }
  return { taken, left: ends[at.number - 1]!.faults.map(({ id }) => id) };
}

/** Cases that every engineer knows (common practice, no source). */
describe('sequences an engineer would follow', () => {
  it('receiver and boiler dark together: the boiler fed through the control’s terminal, the spur left shut', () => {
    const sequence = sequenceOf('combi-wireless', 'boiler-display-dark');
    const fed = 'W2.BN@2:fed from E1.call return';
    const { taken, left } = follow('combi-wireless', sequence, fed);
    expect(left).toContain(fed);
    expect(left.filter((id) => /^(F1|Q1|W1)\b/.test(id))).toEqual([]);
    const opened = taken.flatMap(({ step: { test } }) => (test.kind === 'fuse' ? [] : test.place));
    expect(opened.filter((place) => place?.startsWith('Q1/'))).toEqual([]);
  });

  it.each(['combi-condensate-pump', 'combi-wireless-condensate-pump'])(
    '%s: boiler dark and reservoir full leads to the pump, and the supply is left alone',
    (system) => {
      const sequence = sequenceOf(system, 'boiler-dark-reservoir-full');
      const { taken, left } = follow(system, sequence, 'M1/motor:dead');
      expect(left.every((id) => /^M1\/|^W\d+\.|X1/.test(id))).toBe(true);
      expect(left).toContain('M1/motor:dead');
      // A look at the MCB, every cover on, is all that the supply gets.
      const atSupply = taken.filter(({ step }) => /:(F1|Q1)[./]/.test(step.test.id));
      expect(atSupply.filter(({ step }) => step.test.kind !== 'look')).toEqual([]);
    },
  );

  it.each(['combi-two-wire', 'combi-volt-free', 'combi-wireless'])(
    '%s: a neutral lost shows as a line that is live to earth and no reading to neutral',
    (system) => {
      const sequence = sequenceOf(system, 'boiler-display-dark');
      const { left } = follow(system, sequence, 'W2.BU@2:loose');
      expect(left).toContain('W2.BU@2:loose');
      expect(left.filter((id) => !/\.BU\b|neutral/.test(id))).toEqual([]);
    },
  );

  it.each(['combi-two-wire', 'combi-wireless-condensate-pump', 'heat-only-two-port'])(
    '%s: display off tests the fuse from the front before anything is opened',
    (system) => {
      const sequence = sequenceOf(system, 'boiler-display-dark');
      const { taken } = follow(system, sequence, 'Q1/fuse:blown');
      const kinds = taken.map(({ step: { test } }) => test.kind);
      expect(kinds).toContain('fuse');
      expect(new Set(kinds.slice(0, kinds.indexOf('fuse')))).not.toContain('live');
      expect(new Set(kinds.slice(0, kinds.indexOf('fuse')))).not.toContain('dead');
    },
  );
});

describe('a sequence', () => {
  const make = () => sequenceOf('combi-wireless', 'boiler-display-dark');
  const sequence = make();

  it('is the same whenever it is made', () => {
    const { steps, ends, ...figures } = make();
    expect(figures).toEqual({ ...figures, ...pick(sequence) });
    expect(steps.map(({ test, answers }) => [test.id, answers])).toEqual(
      sequence.steps.map(({ test, answers }) => [test.id, answers]),
    );
    expect(ends.map((end) => end.faults.map(({ id }) => id))).toEqual(
      sequence.ends.map((end) => end.faults.map(({ id }) => id)),
    );
  });

  it('numbers its expected way first, opens each item once, and shares out what is open', () => {
    sequence.steps.forEach(({ number, answers }, i) => {
      expect(number).toBe(i + 1);
      expect(answers.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
      const [expected] = answers;
      if (expected!.expected && expected!.next.kind === 'step')
        expect(expected!.next.number).toBe(number + 1);
    });
    expect(sequence.ends.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
    const { taken } = follow('combi-wireless', sequence, 'W2.BU@2:loose');
    const opened = taken.flatMap(({ step }) => (step.opens ? [step.test] : []));
    const items = opened.map(({ place }) => place);
    expect(new Set(items).size).toBe(items.length);
    expect(items.length).toBeGreaterThan(0);
  });

  it('saves time against the order of the live paths', () => {
    expect(savingOf(sequence)).toBeGreaterThan(0.2);
    expect(savingOf(sequence)).toBeLessThan(1);
  });
});

const pick = ({ steps: _, ends: __, ...figures }: TestSequence) => figures;
