import { COLOUR_CODES, type ColourCode } from '../../published/index.ts';

interface Props {
  readonly colour: ColourCode;
  readonly sleeve: ColourCode | null;
}

/** A core: its colour, always with its letter code, and the sleeve its ends need. */
export const Core = ({ colour, sleeve }: Props) => (
  <>
    <span class="core-name">
      <span
        class={`swatch ${colour}${sleeve ? ` sleeved sleeve-${sleeve}` : ''}`}
        aria-hidden="true"
      />
      <b class="core-code">{colour}</b> <span>{COLOUR_CODES[colour]}</span>
    </span>
    {sleeve && (
      <span class="sleeve-word">
        sleeved {sleeve} <span class="off-paper">{COLOUR_CODES[sleeve]}</span>
      </span>
    )}
  </>
);
