import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nextQuestion } from '../../src/recognise/index.ts';
import { property } from '../support/property.ts';

const ask = (question: string, ...ids: string[]) => ({
  question,
  choices: ids.map((id) => ({ id, label: id })),
});
const QUESTIONS = [ask('boiler', 'combi', 'heat-only'), ask('control', 'two-wire', 'wireless')];

describe('the question asked next', () => {
  test('is the first that tells the systems left apart', () => {
    const left = [
      ['combi', 'two-wire'],
      ['combi', 'wireless'],
    ];
    expect(nextQuestion(QUESTIONS, 0, left)).toBe(1);
    expect(nextQuestion(QUESTIONS, 0, [...left, ['heat-only', 'wireless']])).toBe(0);
  });

  test('is none where all answer alike, or none is left', () => {
    expect(nextQuestion(QUESTIONS, 0, [['combi'], ['combi']])).toBe(-1);
    expect(nextQuestion(QUESTIONS, 0, [])).toBe(-1);
  });

  property(
    'splits what is left, and no earlier one does',
    200,
    ([left, from]) => {
      const at = nextQuestion(QUESTIONS, from, left);
      const splits = ({ choices }: (typeof QUESTIONS)[number]) =>
        choices.some(({ id }) => new Set(left.map((ids) => ids.includes(id))).size === 2);
      expect(at).toBe(QUESTIONS.findIndex((one, i) => i >= from && splits(one)));
    },
    fc.tuple(fc.array(fc.subarray(['combi', 'heat-only', 'two-wire', 'wireless'])), fc.nat(2)),
  );
});
