import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fragmentOf,
  NOTHING_ASKED,
  planCores,
  readFragment,
} from '../../../src/wiring/core-planner/index.ts';
import { property } from '../../support/property.ts';

describe('a request in an address', () => {
  it('reads as an engineer would write it', () => {
    const request = {
      counts: { earth: 1, live: 1, neutral: 1, loop: 1 },
      blueAsLive: false,
      there: '3E',
    };
    expect(fragmentOf(request)).toBe('earth=1&live=1&neutral=1&loop=1&blue=neutral&there=3E');
    expect(readFragment(fragmentOf(request)).request).toEqual(request);
    expect(readFragment('')).toEqual({ request: NOTHING_ASKED, problems: [] });
    expect(readFragment('#main')).toEqual({ request: NOTHING_ASKED, problems: [] });
  });

  it.each([
    ['live=3', 'Permanent live: 0 to 2, not “3”.'],
    ['live=-1', 'Permanent live: 0 to 2, not “-1”.'],
    ['live=1e3', 'Permanent live: 0 to 2, not “1e3”.'],
    ['switched=', 'Switched live: 0 to 6, not “”.'],
    ['there=9E', '“there=9E” is no part of a request.'],
    ['blue=live', '“blue=live” is no part of a request.'],
    ['constructor=1', '“constructor=1” is no part of a request.'],
    ['__proto__=1', '“__proto__=1” is no part of a request.'],
    ['<script>=1', '“<script>=1” is no part of a request.'],
  ])('%s is left out and named', (fragment, problem) => {
    const read = readFragment(`#${fragment}&earth=1`);
    expect(read.problems).toEqual([problem]);
    expect(read.request.counts.earth).toBe(1);
    expect(planCores(read.request).needed).toBe(1);
  });

  it('too long an address is refused whole', () => {
    expect(readFragment(`#live=1&${'x'.repeat(400)}`)).toMatchObject({
      request: NOTHING_ASKED,
      problems: ['The address is too long to be a request.'],
    });
  });

  const letter = fc.constantFrom(...'live=1&neutral%2#there3E switched\u0000é%%');
  property(
    'no address throws, and what is read can be planned',
    500,
    (text) => expect(planCores(readFragment(text).request).needed).toBeLessThan(30),
    fc.string({ unit: letter, maxLength: 40 }),
  );
});
