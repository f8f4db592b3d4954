import { z } from 'zod';
import { HISTORIES } from '../diagnosis/index.ts';
import type { Next, SequenceEnd, Step, TestSequence } from '../diagnosis/sequences/index.ts';

const number = z.number();
const text = z.string();
const NextData = z.union([
  z.strictObject({ step: z.int().positive() }),
  z.strictObject({ end: z.int().positive() }),
]);

const StepData = z.strictObject({
  test: text.meta({ description: 'Id of the test' }),
  front: z.boolean().meta({
    description: 'Whether its fuse is drawn from the front with no more than the switch off',
  }),
  expected: text.meta({ description: 'What the sound circuit answers' }),
  answers: z.array(
    z.strictObject({
      answer: text,
      finds: text.nullable().meta({
        description: 'Key of the repair of what is found, where something is to be seen',
      }),
      share: number,
      next: NextData,
    }),
  ),
});

const EndData = z.strictObject({
  faults: z.array(text).meta({ description: 'Ids of the faults left' }),
  sound: z.boolean().meta({ description: 'Whether the sound circuit answers so too' }),
  oneRepair: z.boolean().meta({ description: 'Whether one repair covers them all' }),
  leading: number.meta({
    description: 'Share of the likeliest repair of what is left, the sound circuit counted',
  }),
  reason: text.meta({ description: 'Why no test tells them apart; empty where none need' }),
  wouldTell: text.meta({ description: 'What would' }),
  share: number.meta({ description: 'How likely from the start, as a share of one' }),
  proof: z
    .strictObject({ test: text, answer: text })
    .nullable()
    .meta({ description: 'The reading that proves it, where none on the way has' }),
});

/** One order of tests, as a tree whose steps and ends are named by number from 1. */
export const SequenceData = z.strictObject({
  id: text.meta({
    description: 'Id of the symptom it starts from; anything, other-seen or nothing-seen',
  }),
  title: text,
  history: z
    .enum(HISTORIES)
    .meta({ description: 'What the customer says of the time before: how likely each fault is' }),
  mode: text.meta({ description: 'Mode in which whoever starts stands, every cover on' }),
  faults: z.int().meta({ description: 'Open at the start' }),
  groups: z.int().meta({ description: 'Groups to tell apart, by repair or by equal answers' }),
  tests: z.int().meta({ description: 'Tests that tell any of them apart' }),
  minutes: number.meta({ description: 'Expected minutes, weights taken as probabilities' }),
  lowerBound: number.meta({ description: 'No order of these tests takes fewer, minutes' }),
  gap: number.meta({ description: 'Share of the minutes not proven necessary' }),
  proven: z.boolean().meta({ description: 'Whether no order takes fewer' }),
  expanded: z.int().meta({ description: 'States that the search expanded' }),
  liveOrderMinutes: number.meta({
    description: 'Expected minutes of someone who works along the live paths',
  }),
  first: NextData,
  steps: z.array(StepData),
  ends: z.array(EndData),
});
export type SequenceData = z.infer<typeof SequenceData>;

/** The open form of one sequence. */
export function sequenceData({ first, steps, ends, ...figures }: TestSequence): SequenceData {
  return {
    ...figures,
    first: nextData(first),
    steps: steps.map(stepData),
    ends: ends.map(endData),
  };
}

const nextData = ({ kind, number: n }: Next): z.infer<typeof NextData> =>
  kind === 'step' ? { step: n } : { end: n };

const stepData = ({ test, front, expected, answers }: Step) => ({
  test: test.id,
  front,
  expected,
  answers: answers.map(({ answer, finds, share, next }) => ({
    answer,
    finds,
    share,
    next: nextData(next),
  })),
});

const endData = ({ faults, proof, number: _, ...rest }: SequenceEnd) => ({
  faults: faults.map(({ id }) => id),
  ...rest,
  proof: proof && { test: proof.test.id, answer: proof.answer },
});
