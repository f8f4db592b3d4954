import { describe, expect, it } from 'vitest';
import {
  ampsText,
  findings,
  loopText,
  sheetText,
  voltsText,
} from '../../../src/components/cables/words.ts';
import { altered } from '../../support/altered.ts';
import { shippedSystem } from '../../support/shipped.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');
const found = (system: ReturnType<typeof altered>) => findings(system.cables).map(plain);

describe('figures in words', () => {
  it.each([
    [0, 'none'],
    [0.00001, 'none'],
    [0.002, 'under 0.01 A'],
    [0.623, '0.62 A'],
    [9.994, '9.99 A'],
    [166.4, '166 A'],
  ])('%s A: %s', (amps, text) => expect(plain(ampsText(amps))).toBe(text));

  it('volts and ohms', () => {
    expect(plain(voltsText(0))).toBe('none');
    expect(plain(voltsText(0.004))).toBe('under 0.01 V');
    expect(plain(voltsText(0.226))).toBe('0.23 V');
    expect(plain(loopText(1.3132))).toBe('1.31 Ω');
  });

  it('a cable on the sheet', () => {
    const W2 = shippedSystem('combi-two-wire').cables.cables[1]!;
    expect(plain(sheetText(W2))).toBe('0.62 of 6 A, Q1 3 A');
  });
});

describe('what is not in order', () => {
  it('is nothing in a sound entry', () => {
    expect(findings(shippedSystem('combi-condensate-pump').cables)).toEqual([]);
  });

  it('a thin flex on a large fuse', () => {
    const thin = altered('combi-wireless', ({ cables, items }) => {
      cables.W3!.size = 0.5;
      items.Q1!.ratings = { fuse: 13 };
    });
    expect(found(thin)).toContain('W3, protection: 13 A fuse at Q1: more than it bears');
  });

  it('two cores too few', () => {
    const short = altered('combi-condensate-pump', ({ cables }) => {
      delete cables.W5!.cores.WH;
      delete cables.W5!.cores.OG;
    });
    expect(found(short)).toEqual([
      'W5, cores: 5 needed, 3 there: none for overflow COM at M1 and overflow NC at M1',
    ]);
  });

  it('a blue live without its sleeve', () => {
    const bare = altered('combi-two-wire', ({ cables }) => {
      cables.W3!.cores.BU!.sleeve = undefined;
    });
    expect(found(bare)).toEqual(['W3 BU: needs a brown sleeve at both ends']);
  });

  it('a fault that no fuse clears in time', () => {
    const electrode = altered('combi-two-wire', (_, devices) => {
      const { supply } = devices.get('supply-circuit')!.elements;
      if (supply?.kind === 'mains') supply.earthing = 'TT';
    });
    expect(found(electrode)).toContain('F1, fault to earth: clears not in 5 s: over 1.37 Ω');
  });
});
