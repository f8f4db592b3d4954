import { describe, expect, it } from 'vitest';
import type { ColourCode } from '../../../src/published/index.ts';
import { type Carries, markingOf } from '../../../src/wiring/index.ts';
import { altered } from '../../support/altered.ts';
import { shippedSystem, shippedSystems } from '../../support/shipped.ts';

describe('marking of cores (BS 7671 514 and Table 51, from memory)', () => {
  it.each([
    ['line', 'BN', null, 'right'],
    ['line', 'BU', null, 'needed'],
    ['line', 'BU', 'BN', 'right'],
    ['line', 'BK', null, 'usual'],
    ['line', 'GY', 'BN', 'right'],
    ['line', 'GNYE', null, 'forbidden'],
    ['line', 'GNYE', 'BN', 'forbidden'],
    ['line', 'BN', 'BU', 'needed'],
    ['neutral', 'BU', null, 'right'],
    ['neutral', 'GY', null, 'needed'],
    ['neutral', 'GY', 'BU', 'right'],
    ['neutral', 'BN', null, 'needed'],
    ['neutral', 'GNYE', 'BU', 'forbidden'],
    ['earth', 'GNYE', null, 'right'],
    ['earth', 'BK', 'GNYE', 'forbidden'],
    ['earth', 'BN', null, 'forbidden'],
    ['extra-low', 'BU', null, 'right'],
    ['extra-low', 'BN', null, 'right'],
    ['extra-low', 'GNYE', null, 'forbidden'],
  ] as const)('%s on %s sleeved %s: %s', (carries, colour, sleeve, verdict) => {
    expect(markingOf(carries as Carries, colour as ColourCode, sleeve).verdict).toBe(verdict);
  });

  it('blue as the control’s live is sleeved brown in the entry, and missed when it is not', () => {
    const blue = ({ cables }: ReturnType<typeof altered>) =>
      cables.cables.flatMap(({ cores }) => cores).find(({ id }) => id === 'W3.BU')!;
    expect(blue(shippedSystem('combi-two-wire'))).toMatchObject({
      carries: 'line',
      marking: { wanted: 'BN', verdict: 'right' },
    });
    const bare = altered('combi-two-wire', ({ cables }) => {
      cables.W3!.cores.BU!.sleeve = undefined;
    });
    expect(blue(bare).marking).toEqual({ wanted: 'BN', verdict: 'needed' });
  });

  it.each(shippedSystems().map((s) => [s.id, s] as const))(
    '%s marks every core that would pass for something else',
    (_, { cables }) => {
      const cores = cables.cables.flatMap(({ cores: own }) => own);
      const wrong = cores.filter(({ marking }) =>
        ['needed', 'forbidden'].includes(marking.verdict),
      );
      expect(wrong.map(({ id }) => id)).toEqual([]);
      for (const { carries, colour } of cores) {
        expect(colour === 'GNYE').toBe(carries === 'earth');
      }
    },
  );
});
