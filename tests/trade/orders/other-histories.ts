import { COVERS_ON, type Family, type Order, type Position } from './order.ts';
import { UNTIL_NOW } from './until-now.ts';

/**
 * "Never since somebody worked on it: covers-on acts, then compare with the wiring table, core by
 * core, the box where the work was, the wiring centre, the other boxes." Where the work was is
 * not known to a sequence, so that the box of the control or the boiler stands for it; where the
 * system has no wiring centre the position is no act of it. Common practice, no source.
 */
const SINCE_WORK: readonly Position[] = [
  { id: 'looks', says: 'covers-on acts', accepts: [COVERS_ON] },
  {
    id: 'box',
    says: 'compare the box where the work was, or the wiring centre',
    accepts: [
      {
        kinds: ['compare'],
        at: ['boiler', 'control', 'receiver', 'room stat', 'cylinder stat', 'programmer'],
      },
      { kinds: ['compare'], at: ['centre'] },
    ],
  },
  {
    id: 'others',
    says: 'compare the other boxes',
    accepts: [{ kinds: ['compare'] }],
  },
];

/** "Tug and look for scorch at every box opened, volts across loaded joints." */
const BOXES: readonly Family[] = ['centre', 'boiler', 'control', 'receiver', 'room stat'];
const COMES_AND_GOES: readonly Position[] = [
  { id: 'looks', says: 'what it does when (heat, rain, which call)', accepts: [COVERS_ON] },
  {
    id: 'joints',
    says: 'tug and look for scorch at every box opened',
    accepts: [{ kinds: ['prove', 'inside', 'tug'], at: BOXES }],
  },
  {
    id: 'loaded',
    says: 'volts across loaded joints',
    accepts: [{ kinds: ['live'], at: BOXES }],
  },
];

const as = (history: Order['history'], positions: readonly Position[]): readonly Order[] =>
  UNTIL_NOW.map((order) => ({ ...order, id: `${order.id}, ${history}`, history, positions }));

/** The same complaints with the other two histories. */
export const OTHER_HISTORIES: readonly Order[] = [
  ...as('since work', SINCE_WORK),
  ...as('comes and goes', COMES_AND_GOES),
];
