import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { textWidth } from '../../src/diagram/index.ts';
import { LETTERS, SIGNS } from '../../src/fonts/characters.ts';
import {
  advancesFile,
  FONT_FOLDER,
  makeFonts,
  type OpenFont,
  openFont,
  setWidth,
} from '../../src/fonts/make.ts';

const kept = (name: string) => readFileSync(join(FONT_FOLDER, name));
const open = (name: string): Promise<OpenFont> => openFont(kept(name));
const WEIGHTS = [400, 700];

test('the kept files are what npm run fonts cuts from the packages', async () => {
  for (const [name, bytes] of await makeFonts())
    expect([name, kept(name).equals(bytes)]).toEqual([name, true]);
});

test('the drawings’ advance widths are those of the kept files', async () => {
  const bare = (text: string) => text.replace(/\s+/g, ' ').replace(/["']/g, '');
  const fonts = await makeFonts();
  const written = readFileSync('src/diagram/advances.ts', 'utf8');
  expect(bare(written)).toBe(bare(await advancesFile(fonts)));
});

describe.each(WEIGHTS)('at weight %i', (weight) => {
  test('the letters and the signs are all there', async () => {
    const letters = await open(`letters-${weight}.woff2`);
    const signs = await open(`signs-${weight}.woff2`);
    expect([...LETTERS].filter((one) => !letters.characters.has(one))).toEqual([]);
    expect([...SIGNS].filter((one) => !signs.characters.has(one))).toEqual([]);
  });

  test('figures are of one width', async () => {
    const letters = await open(`letters-${weight}.woff2`);
    const widths = new Set([...'0123456789'].map((figure) => setWidth(letters, figure)));
    expect([...widths]).toHaveLength(1);
  });

  test('I has its serifs, l its tail, and 0 is struck through', async () => {
    const { font } = await open(`letters-${weight}.woff2`);
    const drawn = (letter: string) => font.nominalGlyph(letter.codePointAt(0)!)!;
    const across = (letter: string) => font.glyphExtents(drawn(letter))!.width;
    // A stem alone is as wide as the bar.
    expect(across('I')).toBeGreaterThan(2 * across('|'));
    expect(across('l')).toBeGreaterThan(1.5 * across('|'));
    const outlines = (letter: string) => font.glyphToPath(drawn(letter)).split('M').length - 1;
    expect(outlines('O')).toBe(2);
    expect(outlines('0')).toBeGreaterThan(2);
  });

  test('a text is as wide as the drawings take it to be, but for pairs set closer or wider', async () => {
    const letters = await open(`letters-${weight}.woff2`);
    const drawings = ['every-sign', 'call-loop', 'legend'].map((name) =>
      readFileSync(`tests/diagram/golden/${name}.svg`, 'utf8'),
    );
    const texts = drawings.flatMap((svg) => [...svg.matchAll(/<text[^>]*>([^<]+)</g)]);
    expect(texts.length).toBeGreaterThan(100);
    for (const [, text] of texts) {
      const taken = textWidth(text!, 1000, weight === 700);
      const set = setWidth(letters, text!);
      expect([text, Math.abs(set / taken - 1) < 0.04]).toEqual([text, true]);
    }
  });
});

test('what scripts write is in the served face', () => {
  const served = new Set([...LETTERS, ...SIGNS]);
  const sources = globSync(
    'src/{job,planner,components,search,offline,words,diagnosis}/**/*.{ts,tsx}',
  );
  expect(sources.length).toBeGreaterThan(100);
  const wrong = sources.flatMap((path) => {
    const code = readFileSync(path, 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
    return [...new Set(code.replace(/\s/g, ''))]
      .filter((one) => !served.has(one))
      .map((one) => [path, one]);
  });
  expect(wrong).toEqual([]);
});
