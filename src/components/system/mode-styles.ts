import { INSTRUMENTS } from '../../circuit/index.ts';

/** Widths, rem: of the page about the modes' columns, of one column, of a screen with one only. */
const FRAME = 27;
const COLUMN = 4.7;
const MOST_NARROW = 63.99;

/**
 * Style rules by which the chosen mode and instrument show their readings, with no script:
 * `.v` is a reading, `.in` anything that holds in some modes, `.of` what an instrument has,
 * `.c` a column of a mode. Where the columns of all modes find no room, only the chosen one stands.
 * @param modes mode ids, in the order that numbers them.
 */
export function modeStyles(modes: readonly string[]): string {
  const narrow = Math.max(MOST_NARROW, FRAME + COLUMN * modes.length);
  const byMode = modes.flatMap((id, m) => {
    const chosen = chosenWhere(`#mode-${id}`, 'mode', m);
    return [
      `${chosen} :is(.v,.in):not(.m${m},.am){display:none}`,
      `@media screen{${chosen} .c.c${m}{background:var(--wash)}}`,
      `@media screen and (max-width:${narrow}rem){${chosen} .c:not(.c${m}){display:none}}`,
    ];
  });
  const byInstrument = INSTRUMENTS.map(
    ({ id }, i) =>
      `${chosenWhere(`#instrument-${id}`, 'instrument', i)} :is(.v,.of):not(.i${i},.ai){display:none}`,
  );
  return [...byMode, ...byInstrument].join('\n');
}

/** The first counts as chosen until the choices are there: a page is drawn while it is still read. */
const chosenWhere = (input: string, name: string, at: number): string =>
  at === 0
    ? `:root:is(:has(${input}:checked),:not(:has([name="${name}"])))`
    : `:root:has(${input}:checked)`;
