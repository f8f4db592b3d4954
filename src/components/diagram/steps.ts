import type { DrawingData } from './data.ts';

const AHEAD = ['ArrowRight', 'ArrowDown'];
const BACK = ['ArrowLeft', 'ArrowUp'];

/**
 * The terminal that an arrow leads to: left and right to another of the same net, up and
 * down to its neighbour in the box. Null where there is none, or for another key.
 */
export function stepFrom(
  { terminals, nets }: Pick<DrawingData, 'terminals' | 'nets'>,
  id: string,
  key: string,
): string | null {
  const by = AHEAD.includes(key) ? 1 : BACK.includes(key) ? -1 : 0;
  if (by === 0) return null;
  const isAlong = key === 'ArrowRight' || key === 'ArrowLeft';
  const item = id.slice(0, id.indexOf('.') + 1);
  const row = isAlong
    ? nets[terminals[id]!.net]!.terminals
    : Object.keys(terminals).filter((one) => one.startsWith(item));
  if (row.length < 2) return null;
  return row[(row.indexOf(id) + by + row.length) % row.length]!;
}
