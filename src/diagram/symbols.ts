import type { SymbolKind } from './inside.ts';
import { tag } from './markup.ts';

/**
 * Graphical symbols after IEC 60617 (shapes from memory), on a horizontal line through their
 * middle at 0, 0. `reach` is how far from the middle each lead begins.
 */
export interface Symbol {
  readonly reach: number;
  /** Markup of the body; classes tell the styles what changes with its state. */
  readonly body: string;
}

const path = (className: string, d: string) => tag('path', { class: className, d });
const circle = (r: number) => tag('circle', { class: 'body', r });
const box = (width: number, height: number) =>
  tag('rect', { class: 'body', x: -width / 2, y: -height / 2, width, height });
const letter = (text: string) =>
  tag('text', { class: 'letter', y: 4.2, 'text-anchor': 'middle' }, text);

/** A blade on its hinge: raised from the fixed contact, or lying as given. */
const blade = (closed: string) =>
  path('when-open blade', 'M-7 0L6 -8.5') + path('when-closed blade', closed);

export const SYMBOLS: Readonly<Record<SymbolKind, Symbol>> = {
  link: { reach: 5, body: path('through', 'M-4.4 0H4.4') },
  contact: { reach: 7, body: blade('M-7 0L8.5 -3.5M7 0V-5') },
  breaker: { reach: 7, body: blade('M-7 0H7') + path('stroke', 'M4 -3L10 3M4 3L10 -3') },
  fuse: {
    reach: 9,
    body:
      box(18, 8) +
      path('when-closed stroke', 'M-9 0H9') +
      path('when-open stroke', 'M-9 0H-3M3 0H9'),
  },
  board: { reach: 11, body: box(22, 14) },
  lamp: { reach: 8.5, body: circle(8.5) + path('glyph', 'M-6 -6L6 6M-6 6L6 -6') },
  heater: { reach: 11, body: box(22, 10) + path('glyph', 'M-5.5 -5V5M0 -5V5M5.5 -5V5') },
  coil: { reach: 5, body: box(10, 17) },
  motor: { reach: 9.5, body: circle(9.5) + letter('M') },
  sensing: { reach: 8.5, body: box(17, 17) + letter('U') },
  resistor: { reach: 10, body: box(20, 8) },
  source: {
    reach: 2.5,
    body: path('plate', 'M-2.5 -9V9') + path('plate thick', 'M2.5 -4.5V4.5'),
  },
  mains: { reach: 9.5, body: circle(9.5) + path('glyph', 'M-5.5 0q2.75 -6 5.5 0t5.5 0') },
};

/** Earth (in a ring where it is a protective conductor's terminal), its middle at 0, 0. */
export const earthMark = (protective: boolean): string => {
  const bars = path('stroke', 'M0 -4.5V0M-4 0H4M-2.5 2H2.5M-1 4H1');
  return protective ? tag('circle', { class: 'ring', r: 6.5 }) + bars : bars;
};
