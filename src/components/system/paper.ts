import { textWidth } from '../../diagram/index.ts';
import type { ComputedSystem } from '../../reference/index.ts';
import { wayMark } from '../../wiring/index.ts';
import { readingPlace } from './shown.ts';

/** A printed table's type, points, and the room of a mode's column, mm: as a rule, and where there is much. */
const USUAL = { type: 7, column: 6.5 } as const;
const DENSE = { type: 6.25, column: 5.75 } as const;
/** Room beside the heads of the rows, and the least that sentences among them want, mm. */
const BESIDE = 2;
const LEAST = 84;
const POINT = 25.4 / 72;
/** Cores of a wiring table that fill the back of a sheet in the usual type. */
const MANY = 40;

/** Whether a system has so many cores that its printed tables are set smaller. */
export const isDense = ({ wiring }: ComputedSystem): boolean =>
  wiring.runs.reduce((sum, { rows }) => sum + rows.length, 0) > MANY;

/** Width that the readings of a system need on paper, mm: its longest head, and a column a mode. */
export function readingsWidth(system: ComputedSystem): number {
  const { network, simulation, readings } = system;
  const { type, column } = isDense(system) ? DENSE : USUAL;
  const heads = readings.pairs
    .filter(({ from }) => readingPlace(network, from).here)
    .map(
      ({ from, to, kind }) => `${wayMark(from)} to ${wayMark(to)}${kind === 'line' ? ' or E' : ''}`,
    );
  const widest = Math.max(0, ...heads.map((head) => textWidth(head, type * POINT, true)));
  return Math.max(LEAST, Math.ceil(widest + BESIDE + column * simulation.modes.size));
}
