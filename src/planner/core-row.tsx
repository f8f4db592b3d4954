import { COLOUR_CODES } from '../published/index.ts';
import type { PlannedCore } from '../wiring/core-planner/index.ts';

/** One core of a plan: colour, what it carries, and the sleeve its ends need. */
export const CoreRow = ({ core: { colour, need, sleeve } }: { readonly core: PlannedCore }) => (
  <li>
    <span class="core-name">
      <span
        class={`swatch ${colour} ${sleeve ? `sleeved sleeve-${sleeve}` : ''}`}
        aria-hidden="true"
      />
      <b class="core-code">{colour}</b> <span>{COLOUR_CODES[colour]}</span>
    </span>
    <span class={need ? 'core-need' : 'core-need quiet'}>
      {need?.title ?? 'spare'}
      {sleeve && (
        <span class="sleeve-word">
          sleeved {sleeve} {COLOUR_CODES[sleeve]}
        </span>
      )}
    </span>
  </li>
);
