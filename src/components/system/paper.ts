import { textWidth } from '../../diagram/index.ts';
import type { ComputedSystem } from '../../reference/index.ts';
import { wayMark } from '../../wiring/index.ts';
import { readingPlace } from './shown.ts';

/** A printed table's type, points, and the room of a mode's column, mm: as a rule, and where there is much. */
const USUAL = { type: 7, column: 6.5 } as const;
const DENSE = { type: 6, column: 5.5 } as const;
/** Room beside the heads of the rows, and the least that sentences among them want, mm. */
const BESIDE = 2;
const LEAST = 84;
const POINT = 25.4 / 72;
/** Width of readings that leaves the wiring table beside them room for the usual type, mm. */
const MOST = 92;

/** Whether the readings are so wide that a system's printed tables are set smaller. */
export const isDense = (system: ComputedSystem): boolean => widthIn(system, USUAL) > MOST;

/** Width that the readings of a system need on paper, mm: its longest head, and a column a mode. */
export const readingsWidth = (system: ComputedSystem): number =>
  widthIn(system, isDense(system) ? DENSE : USUAL);

function widthIn(
  { network, simulation, readings }: ComputedSystem,
  { type, column }: typeof USUAL | typeof DENSE,
): number {
  const heads = readings.pairs
    .filter(({ from }) => readingPlace(network, from).here)
    .map(
      ({ from, to, kind }) =>
        `${wayMark(from)} to ${wayMark(to)}${kind === 'line' ? ` or ${wayMark(to)}` : ''}`,
    );
  const widest = Math.max(0, ...heads.map((head) => textWidth(head, type * POINT, true)));
  return Math.max(LEAST, Math.ceil(widest + BESIDE + column * simulation.modes.size));
}
