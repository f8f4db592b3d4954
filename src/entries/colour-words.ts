import { COLOUR_CODES } from '../published/index.ts';

const COLOURS: readonly string[] = Object.keys(COLOUR_CODES);
/** Whether a list of allowed words is that of the core colours. */
export const isColours = (words: readonly string[]) =>
  words.length === COLOURS.length && words.every((word) => COLOURS.includes(word));

/** What is wrong with a word that is no core colour. */
export const colourMessage = (found: string) => `“${found}” is no IEC 60757 colour code`;

/** What people write for a code, beside the colour's own name: common practice, no source. */
const OTHERWISE: Readonly<Record<string, string>> = {
  'y-g': 'GNYE',
  'g-y': 'GNYE',
  'gn-ye': 'GNYE',
  'ye-gn': 'GNYE',
  gny: 'GNYE',
  gyye: 'GNYE',
  'gy-ye': 'GNYE',
  yegn: 'GNYE',
  cpc: 'GNYE',
  earth: 'GNYE',
  brn: 'BN',
  blk: 'BK',
  blu: 'BU',
  gry: 'GY',
  org: 'OG',
};

/** The code of a colour written out, as in brown or green/yellow. */
export function colourNamed(found: string): string | undefined {
  const plain = found.toLowerCase().replaceAll(/[^a-z]+/g, '-');
  return (
    (Object.hasOwn(OTHERWISE, plain) ? OTHERWISE[plain] : undefined) ??
    COLOURS.find((code) => code === found.toUpperCase().replaceAll(/[^A-Z]+/g, '')) ??
    Object.entries(COLOUR_CODES).find(
      ([, name]) => name === plain || name.replace('grey', 'gray') === plain,
    )?.[0]
  );
}
