import { COLOUR_CODES, type ColourCode } from '../../../published/index.ts';

/** A core: its colour, always with its letter code. */
export const CoreName = ({ colour }: { readonly colour: ColourCode }) => (
  <span class="core-name">
    <span class={`swatch ${colour}`} aria-hidden="true" />
    <b class="core-code">{colour}</b>
    <span>{COLOUR_CODES[colour]}</span>
  </span>
);
