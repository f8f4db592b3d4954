import { COLOUR_CODES } from '../published/index.ts';

const COLOURS: readonly string[] = Object.keys(COLOUR_CODES);
/** Whether a list of allowed words is that of the core colours. */
export const isColours = (words: readonly string[]) =>
  words.length === COLOURS.length && words.every((word) => COLOURS.includes(word));

/** What is wrong with a word that is no core colour. */
export const colourMessage = (found: string) => `“${found}” is no IEC 60757 colour code`;

/** The code of a colour written out, as in brown or green/yellow. */
export function colourNamed(found: string): string | undefined {
  const plain = found.toLowerCase().replaceAll(/[^a-z]+/g, '-');
  return (
    COLOURS.find((code) => code === found.toUpperCase().replaceAll(/[^A-Z]+/g, '')) ??
    Object.entries(COLOUR_CODES).find(
      ([, name]) => name === plain || name.replace('grey', 'gray') === plain,
    )?.[0]
  );
}
