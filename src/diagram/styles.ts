import { COLOUR_CODES, type ColourCode } from '../published/index.ts';
import { PAPER_ACROSS, TICK } from './spacing.ts';

/** How a colour is written: as a property with a fallback for a page, plainly for a file. */
type Paint = (name: string, plain: string) => string;

const inPage: Paint = (name, plain) => `var(--${name},${plain})`;
const inFile: Paint = (_, plain) => plain;

const INK = '#1d2226';
const PAPER = '#ffffff';

/** Core colours on paper and on slate, chosen so that each keeps 3:1 against its ground. */
export const CORE_COLOURS: Readonly<Record<ColourCode, readonly [light: string, dark: string]>> = {
  BK: ['#141414', '#000000'],
  BN: ['#7d4413', '#b5713a'],
  RD: ['#c3251f', '#ee6a60'],
  OG: ['#d96c00', '#f39a3d'],
  YE: ['#f2c400', '#f5d348'],
  GN: ['#2b8a36', '#4db35a'],
  BU: ['#1668b8', '#5ea9ee'],
  VT: ['#7a3fa3', '#b685dc'],
  GY: ['#84898e', '#a3a9ae'],
  WH: ['#ffffff', '#f4f4f0'],
  PK: ['#d9648c', '#f0a0ba'],
  GD: ['#a8832a', '#cfae55'],
  TQ: ['#159a94', '#4cc4be'],
  SR: ['#a9afb5', '#c3c8cd'],
  GNYE: ['#2b8a36', '#4db35a'],
};
/** Cores that the ground would swallow have an edge of ink. */
const EDGED_ON_PAPER: readonly ColourCode[] = ['WH', 'YE', 'SR'];
const EDGED_ON_SLATE: readonly ColourCode[] = ['BK'];
export const EDGED: ReadonlySet<ColourCode> = new Set([...EDGED_ON_PAPER, ...EDGED_ON_SLATE]);

/** The face by whose widths texts are broken into lines, and others about as wide. */
const FONT =
  '"Atkinson Hyperlegible Next","Inter Signs",Arial,Arimo,"Liberation Sans",Helvetica,sans-serif';

/** On paper: larger letters, and what is round a live conductor no wider than to the next. */
const ON_PAPER = [
  `.circuit.paper{--clear:6.4}.circuit.paper .ticks{stroke-width:${PAPER_ACROSS.track}}`,
  ...Object.entries(PAPER_ACROSS.letters).map(
    ([kind, size]) => `.circuit.paper .${kind}{font-size:${size}px}`,
  ),
].join('\n');

/** What never changes with the mode. */
function still(paint: Paint): string {
  const ink = paint('ink', INK);
  const paper = paint('paper', PAPER);
  const stripe = paint('core-YE', CORE_COLOURS.YE[0]);
  return `
.circuit{display:block;max-width:100%;height:auto;font-family:${FONT}}
.circuit path,.circuit .ring,.circuit .cell,.circuit .outline,.circuit .body,.circuit .screw{fill:none;stroke:${ink}}
.circuit text{fill:${ink};font-variant-numeric:tabular-nums}
.circuit .reference{font-size:16px;font-weight:700}
.circuit .title,.circuit .name{font-size:13px;font-weight:700}
.circuit .place{font-size:12px}
.circuit .label{font-size:11.5px;paint-order:stroke;stroke:${paper};stroke-width:3px;stroke-linejoin:round}
.circuit .code{font-size:11px;font-weight:700}
.circuit .code.edged{paint-order:stroke;stroke:${paper};stroke-width:7px;stroke-linejoin:round}
.circuit .letter{font-size:12px;font-weight:700}
.circuit .outline{fill:${paper};stroke-width:1.4}
.circuit .rule,.circuit .cell{stroke-width:.8}
.circuit .cell{fill:${paper}}
.circuit .extra-low .cell{stroke-dasharray:5 2.5}
.circuit .clear{stroke:${paper};stroke-width:5}
.circuit .clear.inside{stroke-width:6}
.circuit .wire,.circuit .blade,.circuit .through{stroke-width:1.1}
.circuit .wire{stroke-linecap:square}
.circuit .body,.circuit .stroke,.circuit .glyph,.circuit .screw,.circuit .plate{stroke-width:1.3}
.circuit .body,.circuit .screw{fill:${paper}}
.circuit .plate.thick{stroke-width:3}
.circuit .dot{fill:${ink}}
.circuit .linkage{stroke-width:1;stroke-dasharray:3 2}
.circuit .earth .ring,.circuit .earth .stroke{stroke-width:1}
.circuit .half,.circuit .ticks,.circuit .when-closed{display:none}
.circuit .half{fill:${ink};stroke:none}
.circuit .conductor path{stroke-linejoin:round}
.circuit .core{stroke-width:2}
.circuit .casing{stroke-width:3.2;stroke:none}
.circuit .stripe{stroke:${stripe};stroke-width:2;stroke-dasharray:4 4}
.circuit .ticks{stroke-width:${2 * TICK.reach};stroke-dasharray:${TICK.width} ${TICK.every - TICK.width}}
.circuit .wire-link .core{stroke-width:1.4}
.circuit .sleeve{stroke-width:5}
.circuit .sleeve-edge{stroke-width:6.6}
.circuit .cap{stroke-width:1.6}
.circuit rect.plate{fill:${paper};stroke:none}
.circuit .cable .ring{fill:${paper};stroke-width:1}
.circuit .sheet{fill:${paper}}
.circuit .frame{fill:none;stroke:${ink};stroke-width:1.6}
.circuit a{cursor:pointer;text-decoration:none}
.circuit a:hover .cell{stroke-width:2}
.circuit a:focus-visible{outline:none}
.circuit a:focus-visible .cell{stroke:${paint('accent', INK)};stroke-width:3.5}
`;
}

/** What a part looks like in one of its states; `&` is the part, with its state. */
function changing(
  paint: Paint,
  state: State,
  mode: string,
): readonly (readonly [string, string])[] {
  const live = paint('live', INK);
  const ink = paint('ink', INK);
  const paper = paint('paper', PAPER);
  switch (state) {
    case 'live':
      return [
        ['& .clear', `stroke-width:${paint('clear', '8')}`],
        ['& .core,& .stripe', 'stroke-width:3.6'],
        ['& .casing', `stroke-width:5.6;stroke:${live}`],
        ['& .ticks', `display:inline;stroke:${live}`],
        ['&.wire,& .through,&.wire-link .core', 'stroke-width:3'],
        ['& .screw', `fill:${live}`],
      ];
    case 'between':
      return [
        ['& .casing', `stroke-width:5;stroke-dasharray:4 4;stroke:${live}`],
        ['&.wire,& .through', 'stroke-width:2.4;stroke-dasharray:4 4;stroke-linecap:butt'],
        ['& .half', 'display:inline'],
      ];
    case 'closed':
      return [
        ['& .when-open', 'display:none'],
        ['& .when-closed', 'display:inline'],
        [`&[data-live~="${mode}"] .when-closed`, 'stroke-width:3'],
      ];
    case 'on':
      return [
        ['& .body', `fill:${ink}`],
        ['& .glyph', `stroke:${paper}`],
        ['& .letter', `fill:${paper}`],
      ];
  }
}

/** Used in place of a mode id for what looks the same in every mode. */
export const ALWAYS = '*';

type State = 'live' | 'between' | 'closed' | 'on';
const STATES: readonly State[] = ['live', 'between', 'closed', 'on'];

/** Rules for one mode, under a selector that holds while the mode is chosen. */
const inMode = (paint: Paint, mode: string, under: string): string =>
  STATES.flatMap((state) =>
    changing(paint, state, mode).map(([parts, look]) => {
      const part = `${under}.circuit [data-${state}~="${mode}"]`;
      return `${parts.replaceAll('&', part)}{${look}}`;
    }),
  ).join('\n');

const coreColours = (value: (code: ColourCode) => string): string =>
  Object.keys(COLOUR_CODES)
    .map(
      (code) =>
        `.circuit .core-${code} .core,.circuit .sleeve.core-${code}{stroke:${value(code as ColourCode)}}`,
    )
    .join('\n');
const edges = (codes: readonly ColourCode[], stroke: string): string =>
  `${codes.map((code) => `.circuit .core-${code} .casing`).join(',')}{stroke:${stroke}}`;

/**
 * Style rules for drawings in a page. A mode is chosen by a radio input `mode-<id>` with the
 * name `mode` under the same `.system` as the drawing; with none chosen, or where a browser
 * knows no `:has`, the first mode shows.
 *
 * Colours are custom properties of the page, each with a fallback: `--ink`, `--paper`,
 * `--live`, `--accent` and `--core-BN` and so on for each IEC 60757 code.
 */
export function diagramStyles(modes: readonly string[]): string {
  const ink = inPage('ink', INK);
  const first = modes[0];
  return [
    still(inPage),
    ON_PAPER,
    coreColours((code) => inPage(`core-${code}`, CORE_COLOURS[code][0])),
    edges(EDGED_ON_PAPER, ink),
    '@media screen and (prefers-color-scheme:dark){',
    coreColours((code) => inPage(`core-${code}`, CORE_COLOURS[code][1])),
    edges(EDGED_ON_SLATE, ink),
    '}',
    inMode(inPage, ALWAYS, ''),
    ...(first === undefined
      ? []
      : [
          '@supports not selector(:has(*)){',
          inMode(inPage, first, ''),
          '}',
          inMode(inPage, first, '.system:not(:has([name="mode"]:checked)) '),
        ]),
    ...modes.map((mode) => inMode(inPage, mode, `.system:has(#mode-${mode}:checked) `)),
  ].join('\n');
}

/** Style rules for a drawing that stands in a file of its own, on paper, in one mode. */
export const fileStyles = (mode: string): string =>
  [
    still(inFile),
    coreColours((code) => CORE_COLOURS[code][0]),
    edges(EDGED_ON_PAPER, INK),
    inMode(inFile, ALWAYS, ''),
    inMode(inFile, mode, ''),
  ].join('\n');
