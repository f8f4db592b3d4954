import { COLOUR_CODES, type ColourCode } from '../published/index.ts';
import type { Drawing } from './drawing.ts';
import type { SymbolKind } from './inside.ts';
import { escaped, round, tag, words } from './markup.ts';
import { SCREW, TAG, TICK, TYPE } from './spacing.ts';
import { ALWAYS } from './styles.ts';
import { SYMBOL_SIZE } from './symbol-sizes.ts';
import { earthMark, SYMBOLS } from './symbols.ts';
import { textWidth } from './text.ts';

/** A sample, its middle at 0, 0, and what it means. */
interface Entry {
  readonly sample: string;
  readonly means: string;
}

const WIDTH = 344;
const ROW = 30;
const SECTION = 34;
const SAMPLE = { middle: 52, half: 40 } as const;
const WORDS_AT = 112;

const states = (...names: readonly string[]) =>
  Object.fromEntries(names.map((name) => [`data-${name}`, ALWAYS]));
const path = (className: string, d: string) => tag('path', { class: className, d });
const span = `M${-SAMPLE.half} 0H${SAMPLE.half}`;

/** A level conductor in one of its states. */
function conductor(colour: ColourCode, state: readonly string[] = [], over = ''): string {
  return tag(
    'g',
    { class: `conductor core-${colour}`, ...states(...state) },
    path('casing', span),
    path('core', span),
    colour === 'GNYE' ? path('stripe', span) : '',
    path('ticks', `M${-SAMPLE.half + TICK.every / 2} 0H${SAMPLE.half}`),
    over,
  );
}

/** A code that breaks a conductor. */
const code = (text: string, x: number) => {
  const width = textWidth(text, TYPE.code, true) + 4;
  return (
    tag('rect', { class: 'plate', x: x - width / 2, y: -5.5, width, height: 11 }) +
    words(text, x, 4, 'code', 'middle')
  );
};

const terminal = (...state: readonly string[]) =>
  tag(
    'g',
    { class: 'terminal', ...states(...state) },
    tag('circle', { class: 'screw', r: SCREW.radius + 1 }),
    path('half', `M0 ${-SCREW.radius - 1}a4.6 4.6 0 0 0 0 9.2z`),
  );

function element(kind: SymbolKind, ...state: readonly string[]): string {
  const { reach, body } = SYMBOLS[kind];
  const half = SYMBOL_SIZE[kind].width / 2 + 4;
  const leads = `M${round(-half)} 0H${-reach}M${reach} 0H${round(half)}`;
  return tag('g', { class: `element ${kind}`, ...states(...state) }, path('wire', leads), body);
}

/** Two samples side by side: at rest and at work. */
const both = (kind: SymbolKind, state: string) =>
  tag('g', { transform: 'translate(-21 0)' }, element(kind)) +
  tag('g', { transform: 'translate(21 0)' }, element(kind, state));

const cableTag = (cable: string): string => {
  const width = textWidth(cable, TYPE.code, true) + 2 * TAG.side;
  const ring = { x: -width / 2, y: -TAG.height / 2, width, height: TAG.height, rx: TAG.height / 2 };
  return tag(
    'g',
    { class: 'cable' },
    tag('rect', { class: 'ring', ...ring }),
    words(cable, 0, 4, 'code', 'middle'),
  );
};

const sleeve =
  conductor('BU', [], path('sleeve-edge', 'M-38 0h7') + path('sleeve core-BN', 'M-38 0h7')) +
  code('BU/BN', -8);
const cross = (dot: string) =>
  tag('g', {}, path('wire', 'M0 -12V12'), path('clear inside', span), path('wire', span), dot);

const SECTIONS: readonly (readonly [title: string, entries: readonly Entry[]])[] = [
  [
    'Conductors',
    [
      {
        sample: conductor('BN') + code('BN', -12),
        means: 'no volts to earth, with its core colour',
      },
      {
        sample: conductor('BN', ['live']) + code('BN', -12),
        means: 'live: thick, edged and ticked',
      },
      { sample: conductor('BN', ['between']) + code('BN', -12), means: 'neither live nor dead' },
      { sample: conductor('GNYE'), means: 'earth' },
      { sample: sleeve, means: 'blue core sleeved brown' },
      { sample: conductor('GY', [], path('cap', 'M40 -4v8')), means: 'spare core, cut back' },
      { sample: cableTag('W3'), means: 'cable reference, round its cores' },
      { sample: cross(''), means: 'crossing, not joined' },
      { sample: cross(tag('circle', { class: 'dot', r: 2.6 })), means: 'joined' },
    ],
  ],
  [
    'Terminals',
    [
      { sample: terminal(), means: 'no volts to earth' },
      { sample: terminal('live'), means: 'live' },
      { sample: terminal('between'), means: 'neither live nor dead' },
      { sample: tag('g', { class: 'earth' }, earthMark(true)), means: 'earth' },
      {
        sample: tag('g', { class: 'earth' }, earthMark(false)),
        means: 'parking terminal for an earth',
      },
      {
        sample: tag(
          'g',
          { class: 'extra-low' },
          tag('rect', { class: 'cell', x: -30, y: -10, width: 60, height: 20 }),
        ),
        means: 'extra-low voltage only',
      },
    ],
  ],
  [
    'Inside the boxes',
    [
      { sample: both('contact', 'closed'), means: 'contact, open and closed' },
      { sample: both('breaker', 'closed'), means: 'circuit-breaker, tripped and sound' },
      { sample: both('fuse', 'closed'), means: 'fuse, blown and sound' },
      { sample: both('motor', 'on'), means: 'motor, still and running' },
      { sample: both('board', 'on'), means: 'electronics, unfed and fed' },
      { sample: both('sensing', 'on'), means: 'voltage input, without and with' },
      { sample: both('lamp', 'on'), means: 'lamp, dark and lit' },
      { sample: both('heater', 'on'), means: 'heater, cold and fed' },
      { sample: both('coil', 'on'), means: 'relay coil, released and operated' },
      { sample: element('resistor'), means: 'resistor' },
      { sample: element('source'), means: 'extra-low-voltage source' },
      { sample: element('mains'), means: 'mains supply' },
      { sample: path('linkage', 'M0 -11V11'), means: 'contacts that move together' },
    ],
  ],
];

/** Explains every sign of the drawings and the colour codes: for a page of its own or a sheet. */
export function drawLegend(): Drawing {
  let y = 0;
  const parts: string[] = [];
  const colours = Object.entries(COLOUR_CODES).map(
    ([short, name]): Entry => ({
      sample: conductor(short as ColourCode) + code(short, 0),
      means: name,
    }),
  );
  for (const [title, entries] of [...SECTIONS, ['Core colours (IEC 60757)', colours] as const]) {
    y += SECTION;
    parts.push(words(title, 0.5, y - 10, 'title'), path('rule', `M0 ${y - 2}H${WIDTH}`));
    for (const { sample, means } of entries) {
      const at = `translate(${SAMPLE.middle} ${y + ROW / 2})`;
      parts.push(
        tag('g', { transform: at, 'aria-hidden': 'true' }, sample),
        words(means, WORDS_AT, y + ROW / 2 + 4, 'place'),
      );
      y += ROW;
    }
  }
  const height = y + 4;
  const svg = tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'circuit legend',
      role: 'group',
      'aria-label': 'Signs used in the diagrams',
      viewBox: `0 0 ${WIDTH} ${height}`,
      width: WIDTH,
      height,
    },
    tag('desc', {}, escaped('Symbols after IEC 60617. Each sign stands before its meaning.')),
    ...parts,
  );
  return { svg, width: WIDTH, height };
}
