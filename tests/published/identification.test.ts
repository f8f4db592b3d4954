import { describe, expect, it } from 'vitest';
import { COLOUR_CODES, CORE_SETS } from '../../src/published/index.ts';

describe('IEC 60757 letter codes', () => {
  it('are those of the standard', () => {
    expect(COLOUR_CODES).toEqual({
      BK: 'black',
      BN: 'brown',
      RD: 'red',
      OG: 'orange',
      YE: 'yellow',
      GN: 'green',
      BU: 'blue',
      VT: 'violet',
      GY: 'grey',
      WH: 'white',
      PK: 'pink',
      GD: 'gold',
      TQ: 'turquoise',
      SR: 'silver',
      GNYE: 'green-yellow',
    });
  });
});

describe('HD 308 S2 core sets', () => {
  it.each([
    [3, 'GNYE BU BN'],
    [4, 'GNYE BN BK GY'],
    [5, 'GNYE BU BN BK GY'],
  ])('%s cores with green-yellow: %s', (count, colours) => {
    expect(CORE_SETS.earthed[count]?.join(' ')).toBe(colours);
  });

  it.each([
    [2, 'BU BN'],
    [3, 'BN BK GY'],
    [4, 'BU BN BK GY'],
  ])('%s cores without: %s', (count, colours) => {
    expect(CORE_SETS.plain[count]?.join(' ')).toBe(colours);
  });

  it('hold as many cores as they say, green-yellow only where earthed, never white or orange', () => {
    const sets = [
      ...Object.entries(CORE_SETS.earthed).map(([n, set]) => ({ n, set, earthed: true })),
      ...Object.entries(CORE_SETS.plain).map(([n, set]) => ({ n, set, earthed: false })),
    ];
    for (const { n, set, earthed } of sets) {
      expect(set).toHaveLength(Number(n));
      expect(set.includes('GNYE')).toBe(earthed);
      expect(set).not.toContain('WH');
      expect(set).not.toContain('OG');
    }
  });
});
