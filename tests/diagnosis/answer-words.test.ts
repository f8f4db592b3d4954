import { describe, expect, it } from 'vitest';
import { CLASS_LIMITS, classOf } from '../../src/circuit/index.ts';
import { ANSWER_LIMITS, ANSWER_WORDS, answerWordsOf } from '../../src/diagnosis/tests/index.ts';
import { volts } from '../../src/units/index.ts';

describe('the words of answers', () => {
  it('tell any two answers apart', () => {
    const words = Object.values(ANSWER_WORDS);
    expect(new Set(words).size).toBe(words.length);
  });

  it('say of a spindle what a hand feels, and of nothing proved that it is dead', () => {
    const spindle = (['seen', 'not seen', 'comes and goes'] as const).map((answer) =>
      answerWordsOf(answer, 'spindle'),
    );
    expect(spindle).toEqual(['turns freely', 'seized', 'stiff']);
    expect([answerWordsOf('dead', 'prove'), answerWordsOf('dead')]).toEqual(['dead', 'no volts']);
  });

  it('give figures that read as the answer they stand beside', () => {
    const [least, most] = ANSWER_LIMITS.live!.match(/\d+/g)!.map(Number);
    expect([least!, most!].map((v) => classOf(volts(v)))).toEqual(['live', 'live']);
    expect(classOf(volts(Number(/\d+/.exec(ANSWER_LIMITS.dead!)![0])))).toBe('dead');
    expect(classOf(volts(CLASS_LIMITS.high + 0.1))).toBe('high');
  });
});
