import type { Network, Simulation } from '../circuit/index.ts';
import { drawBox } from './draw-box.ts';
import { drawConductor, drawTag } from './draw-conductor.ts';
import type { Drawing } from './drawing.ts';
import { onSheet } from './file.ts';
import { layOutLandscape } from './landscape.ts';
import { layOutSystem, type Sheet } from './layout.ts';
import { Marks } from './marks.ts';
import { escaped, tag } from './markup.ts';
import { NARROW, PAPER_ACROSS, PAPER_UPRIGHT, WIDE } from './spacing.ts';
import { statesOf } from './states.ts';

const LAYOUTS = {
  narrow: (network: Network) => layOutSystem(network, NARROW),
  wide: (network: Network) => layOutSystem(network, WIDE),
  landscape: (network: Network) => layOutLandscape(network),
  'landscape paper': (network: Network) => layOutLandscape(network, PAPER_ACROSS),
  'narrow paper': (network: Network) => layOutSystem(network, PAPER_UPRIGHT),
} as const;

type Variant = keyof typeof LAYOUTS;

/** A network laid out in some variants: plain data, so that it can be kept. */
export type Layouts = Partial<Record<Variant, Sheet>>;

/** Variants that a system's own pages show, on a screen and on paper. */
const SHOWN: readonly Variant[] = ['narrow', 'landscape', 'landscape paper', 'narrow paper'];

/** Lays a network out for all of its pages: a second of work for a large one. */
export const layOutForPages = (network: Network): Layouts =>
  Object.fromEntries(SHOWN.map((variant) => [variant, LAYOUTS[variant](network)]));

export interface DrawOptions {
  /**
   * narrow: for 360 px; wide: one column for a desk; landscape: three columns; on paper two of them
   * closer together, in larger letters. Narrow unless given.
   */
  readonly variant?: Variant;
  /**
   * A mode, for a drawing that stands in a file of its own: it shows this mode only and brings
   * its styles, a frame and a title block. Without it the drawing is for a page.
   */
  readonly mode?: string;
  /** Address of the page with the readings that terminals lead to; the drawing's own unless given. */
  readonly readings?: string;
  /** The network as it was laid out before; laid out here in a variant that is not among them. */
  readonly layouts?: Layouts;
}

/**
 * Draws a system for a page: one drawing for all modes. Each part says in which modes it is
 * live, closed or at work; the page's styles show the mode chosen. A system with many
 * conductors is wider than its variant asks for and has to be moved about sideways.
 * @throws RangeError when a mode is asked for that the system does not have.
 */
export function drawSystem(simulation: Simulation, options: DrawOptions = {}): Drawing {
  const { network } = simulation;
  const variant = options.variant ?? 'narrow';
  const sheet = options.layouts?.[variant] ?? sheetOf(network, variant);
  const { width, height } = sheet;
  if (options.mode !== undefined) return fileOf(simulation, sheet, options.mode);
  const svg = tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: `circuit ${variant}`,
      role: 'group',
      'aria-label': `Wiring diagram: ${network.system.title}`,
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
    },
    tag('desc', {}, escaped(description(sheet))),
    drawParts(
      sheet,
      new Marks(statesOf(simulation), options.readings ?? '', variant.endsWith('paper')),
    ),
  );
  return { svg, width, height };
}

const sheets = new WeakMap<Network, Layouts>();

/** A network laid out, once for all the drawings of it. */
function sheetOf(network: Network, variant: Variant): Sheet {
  const known = sheets.get(network) ?? {};
  sheets.set(network, known);
  known[variant] ??= LAYOUTS[variant](network);
  return known[variant];
}

function fileOf(simulation: Simulation, sheet: Sheet, mode: string): Drawing {
  const { system } = simulation.network;
  if (!simulation.modes.has(mode)) {
    const known = [...simulation.modes.keys()].join(', ');
    throw new RangeError(`${simulation.network.id} has no mode ${mode}; it has ${known}`);
  }
  const marks = new Marks(statesOf(simulation, [mode]), null);
  return onSheet(drawParts(sheet, marks), sheet, { system, mode });
}

/** Boxes, then conductors over their strips, then the cables' tags over the conductors. */
const drawParts = (sheet: Sheet, marks: Marks): string =>
  [
    ...sheet.boxes.map((box) => drawBox(box, marks)),
    ...sheet.conductors.map((conductor) => drawConductor(conductor, sheet, marks)),
    ...sheet.tags.map(drawTag),
  ].join('\n');

const description = ({ boxes, conductors }: Sheet): string =>
  `${boxes.length} items joined by ${conductors.length} conductors. A thick, ticked conductor and a filled terminal are live in the mode chosen. The wiring table says the same in words.`;
