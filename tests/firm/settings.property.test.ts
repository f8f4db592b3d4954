import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { INSTRUMENT_IDS } from '../../schemas/index.ts';
import { INSTRUMENTS } from '../../src/circuit/index.ts';
import {
  accentContrast,
  contrast,
  firmJsonSchema,
  GROUNDS,
  LEAST_CONTRAST,
  readable,
} from '../../src/firm/index.ts';
import { property } from '../support/property.ts';

describe('an accent colour', () => {
  const styles = readFileSync(new URL('../../src/styles/tokens.css', import.meta.url), 'utf8');
  const [light = '', dark = ''] = styles.split('@media screen and (prefers-color-scheme: dark)');

  test('is measured on the grounds of the site’s own styles', () => {
    for (const [scheme, sheet] of [
      ['light', light],
      ['dark', dark],
    ] as const)
      for (const [name, colour] of Object.entries(GROUNDS[scheme]))
        expect(name === 'raised' || sheet.includes(`--${name}: ${colour};`)).toBe(true);
    expect(light).toContain(`--raised: ${GROUNDS.light.raised};`);
    expect(dark).toContain(`--raised: ${GROUNDS.dark.raised};`);
  });

  // WCAG 2.2, relative luminance and contrast ratio: black on white is 21; #777 on white 4.48.
  test('has the contrast that WCAG gives', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
    expect(contrast('#ffffff', '#777777')).toBe(contrast('#777777', '#ffffff'));
  });

  property('is proposed readable whatever was asked for', 300, ({ below }) => {
    const colour = `#${below(0x1000000).toString(16).padStart(6, '0')}`;
    for (const scheme of ['light', 'dark'] as const)
      expect(accentContrast(readable(colour, scheme), scheme)).toBeGreaterThanOrEqual(
        LEAST_CONTRAST,
      );
  });
});

test('the published schema of settings is current (else: npm run schemas)', () => {
  const file = new URL('../../public/schemas/firm.schema.json', import.meta.url);
  expect(readFileSync(file, 'utf8')).toBe(`${JSON.stringify(firmJsonSchema(), null, 2)}\n`);
});

test('the instruments that a firm can choose are those there are', () => {
  expect(INSTRUMENT_IDS).toEqual(INSTRUMENTS.map(({ id }) => id));
});
