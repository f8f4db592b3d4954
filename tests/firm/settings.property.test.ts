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
import { checkFirm, EXAMPLE, filesOf, said } from './memory.ts';

const example = filesOf(EXAMPLE);

describe('the example firm', () => {
  const checked = checkFirm(example);

  test('is in order, and one of its reviews is overdue', () => {
    expect(said(checked)).toEqual([]);
    expect(checked.warnings.map(({ code, file }) => `${code} ${file}`)).toEqual([
      'review-overdue firm/content/procedures/handing-over.mdx',
    ]);
  });

  test('adds, replaces, extends, hides and names', () => {
    const { systems, devices, procedures, standards, glossary } = checked.entries;
    expect(systems.get('combi-joint-box')?.origin).toBe('added');
    expect(systems.get('combi-two-wire')?.data.aliases).toContain('Ottermere drawing 1');
    expect(systems.has('combi-volt-free')).toBe(false);
    expect(devices.has('combi-boiler-volt-free-call')).toBe(false);
    expect(glossary.has('borrowed-neutral')).toBe(false);
    const control = devices.get('room-control-two-wire')!;
    expect(control.origin).toBe('replaced');
    expect(control.data.terminals).toHaveProperty('COM');
    expect(control.body).not.toContain('Two terminals, and no supply');
    const terminals = devices.get('combi-boiler-mains-call')!.data.terminals;
    expect(terminals['call feed']?.aliases).toContain('OH 5');
    const handing = procedures.get('handing-over')!;
    expect(handing.origin).toBe('extended');
    expect(handing.data.steps.length).toBeGreaterThan(11);
    expect(handing.body).toMatch(/If it cannot be left working[\s\S]*At Ottermere/);
    expect(standards.get('volt-drop')?.data.rule).toMatchObject({ most: 3 });
    expect(standards.get('controls-on-the-van')?.origin).toBe('added');
  });

  test('fails on its overdue review once its settings say so, and on no one else’s', () => {
    const settings = example['firm.yaml']!.replace('overdue: warn', 'overdue: fail');
    const strict = checkFirm({ ...example, 'firm.yaml': settings }, undefined, '2026-11-25');
    expect(said(strict).map((line) => line.split(':')[0])).toEqual([
      'firm/content/procedures/handing-over.mdx',
    ]);
    const later = checkFirm({ ...example, 'firm.yaml': settings }, undefined, '2030-01-01');
    expect(later.problems.filter(({ file }) => !file.startsWith('firm/'))).toEqual([]);
  });

  test('is told of an entry that nobody reviewed', () => {
    const file = 'content/glossary/heating-switch.mdx';
    const text = example[file]!.replace(/^review:.*\n/m, '');
    const codes = checkFirm({ ...example, [file]: text }).warnings.map(({ code }) => code);
    expect(codes).toContain('review-missing');
  });
});

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
