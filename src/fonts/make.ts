import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { Blob, Face, Feature, Font, Buffer as Run, shape } from 'harfbuzzjs';
import subset from 'subset-font';
import { LETTERS, SIGNS } from './characters.ts';

/** Where the cut files lie, from the project's root. */
export const FONT_FOLDER = 'src/fonts';

/** A file of the served face: one weight, letters or signs. */
interface Source {
  readonly name: string;
  /** Where the whole font lies among the packages. */
  readonly from: string;
  readonly characters: string;
}

const WEIGHTS = [
  { weight: 400, style: 'Regular' },
  { weight: 700, style: 'Bold' },
] as const;

const SOURCES: readonly Source[] = WEIGHTS.flatMap(({ weight, style }) => [
  {
    name: `letters-${weight}`,
    from: `@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-${weight}-normal.woff2`,
    characters: LETTERS,
  },
  { name: `signs-${weight}`, from: `inter-ui/web/Inter-${style}.woff2`, characters: SIGNS },
]);

/** Figures of one width, and letters set closer where their shapes ask for it. */
const FEATURES: string[] = ['tnum', 'kern'];

/** The files of the served face by name, cut from the packages' fonts. */
export async function makeFonts(): Promise<ReadonlyMap<string, Uint8Array>> {
  const { resolve } = createRequire(import.meta.url);
  const made = SOURCES.map(async ({ name, from, characters }) => {
    const whole = await readFile(resolve(from));
    const options = { targetFormat: 'woff2', keepFeatures: FEATURES, noHinting: true } as const;
    return [`${name}.woff2`, await subset(whole, characters, options)] as const;
  });
  return new Map(await Promise.all(made));
}

/** A font opened to be measured. */
export interface OpenFont {
  readonly font: Font;
  /** Units of the type's size. */
  readonly size: number;
  readonly characters: ReadonlySet<string>;
}

/** Opens a font file of the web. */
export async function openFont(woff2: Uint8Array): Promise<OpenFont> {
  const plain = await subset(woff2, undefined, {
    targetFormat: 'sfnt',
    keepAllGlyphs: true,
  });
  const face = new Face(new Blob(new Uint8Array(plain)));
  const characters = [...face.collectUnicodes()].map((code) => String.fromCodePoint(code));
  return { font: new Font(face), size: face.upem, characters: new Set(characters) };
}

/** Width of a text as a browser sets it, with figures of one width; thousandths of the type's size. */
export function setWidth({ font, size }: OpenFont, text: string): number {
  const run = new Run();
  run.addText(text);
  run.guessSegmentProperties();
  shape(font, run, [new Feature('tnum', 1)]);
  const units = run.getGlyphPositions().reduce((sum, { xAdvance }) => sum + xAdvance, 0);
  return (units * 1000) / size;
}

/**
 * Advance widths of one weight: characters by their width, thousandths of the type's size. The
 * letters' face comes first, as in the styles.
 */
export function advancesOf(faces: readonly OpenFont[]): Record<number, string> {
  const widths: Record<number, string> = {};
  for (const character of [...LETTERS, ...SIGNS]) {
    const face = faces.find(({ characters }) => characters.has(character));
    if (!face) continue;
    const width = Math.round(setWidth(face, character));
    widths[width] = (widths[width] ?? '') + character;
  }
  return widths;
}

/** Text of the module that tells the drawings how wide each character is. */
export async function advancesFile(fonts: ReadonlyMap<string, Uint8Array>): Promise<string> {
  const tables = await Promise.all(
    WEIGHTS.map(async ({ weight, style }) => {
      const names = [`letters-${weight}.woff2`, `signs-${weight}.woff2`];
      const faces = await Promise.all(names.map((name) => openFont(fonts.get(name)!)));
      const rows = Object.entries(advancesOf(faces)).map(
        ([width, characters]) => `  ${width}: ${quoted(characters)},\n`,
      );
      return `export const ${style.toUpperCase()}: Readonly<Record<number, string>> = {\n${rows.join('')}};\n`;
    }),
  );
  return `/* Written by npm run fonts. */\n\n/** Advance widths of the served face, thousandths of the type's size: characters by their width. */\n${tables.join('\n')}`;
}

/** A string as the formatter writes it; what cannot be seen as its code. */
function quoted(characters: string): string {
  const mark = characters.includes("'") ? '"' : "'";
  const body = characters
    .replaceAll('\\', '\\\\')
    .replaceAll('\u00a0', '\\u00a0')
    .replaceAll(mark, `\\${mark}`);
  return `${mark}${body}${mark}`;
}
