import { describe, expect, test } from 'vitest';
import { brief } from '../../src/components/text/brief.ts';

describe('what of a caution may stand alone', () => {
  test.each([
    [
      'Every conductor is live until proved dead.',
      'Every conductor is live until proved dead.',
      '',
    ],
    [
      'A control turned down is not isolation. Neither is the boiler’s own switch. Nor an RCD.',
      'A control turned down is not isolation.',
      'Neither is the boiler’s own switch. Nor an RCD.',
    ],
    // Too short to say what to do: the next one goes with it.
    [
      'This is live work. Only a person competent in it does it. Leads to GS38.',
      'This is live work. Only a person competent in it does it.',
      'Leads to GS38.',
    ],
    ['This is live work. Stop.', 'This is live work. Stop.', ''],
    // Neither a figure's point nor a lower-case letter after a stop ends a sentence.
    [
      'A fuse of 3.15 A, approx. as marked, goes in. No other does.',
      'A fuse of 3.15 A, approx. as marked, goes in.',
      'No other does.',
    ],
  ])('%s', (caution, first, rest) => {
    expect(brief(caution)).toEqual([first, rest]);
  });
});
