import { describe, expect, test } from 'vitest';
import { decodeCbor, encodeCbor, type Value } from '../../src/offline/cbor.ts';

/** Examples of RFC 8949, Appendix A, of the kinds that a search index is made of. */
const EXAMPLES: readonly (readonly [Value, string])[] = [
  [0, '00'],
  [1, '01'],
  [10, '0a'],
  [23, '17'],
  [24, '1818'],
  [25, '1819'],
  [100, '1864'],
  [1000, '1903e8'],
  [1000000, '1a000f4240'],
  [-1, '20'],
  [-10, '29'],
  [-100, '3863'],
  [-1000, '3903e7'],
  ['', '60'],
  ['a', '6161'],
  ['IETF', '6449455446'],
  ['"\\', '62225c'],
  ['ü', '62c3bc'],
  ['水', '63e6b0b4'],
  ['\u{10151}', '64f0908591'],
  [[], '80'],
  [[1, 2, 3], '83010203'],
  [[1, [2, 3], [4, 5]], '8301820203820405'],
  [
    Array.from({ length: 25 }, (_, i) => i + 1),
    '98190102030405060708090a0b0c0d0e0f101112131415161718181819',
  ],
];

describe('CBOR of the kinds in a search index', () => {
  test.each(EXAMPLES)('%j is %s', (value, hex) => {
    expect(Buffer.from(encodeCbor(value)).toString('hex')).toBe(hex);
    expect(decodeCbor(Buffer.from(hex, 'hex'))).toEqual(value);
  });

  // Also of Appendix A: a half float, a byte string, a map, a list of indefinite length.
  test.each(['f90000', '4401020304', 'a201020304', '9fff'])('%s is refused', (hex) => {
    expect(() => decodeCbor(Buffer.from(hex, 'hex'))).toThrow(RangeError);
  });
});
