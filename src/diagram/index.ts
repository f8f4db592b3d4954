/** From a circuit to its drawing: the door to this room. */
export { terminalAnchor } from './anchor.ts';
export type { Box } from './box.ts';
export { type Cell, isBare } from './cells.ts';
export { type DrawOptions, drawSystem, type Layouts, layOutForPages } from './draw.ts';
export type { Drawing } from './drawing.ts';
export type { Point, Rect, Side } from './geometry.ts';
export type { PlacedSymbol, Wire } from './inside-lines.ts';
export { layOutLandscape } from './landscape.ts';
export { type Conductor, layOutSystem, type Sheet, type Tag } from './layout.ts';
export { codeOf } from './leads.ts';
export { drawLegend } from './legend.ts';
export { itemOrder } from './order.ts';
export {
  LANDSCAPE,
  MOST_ZOOM,
  NARROW,
  PAPER_ACROSS,
  PAPER_UPRIGHT,
  type Spacing,
  TYPE,
  WIDE,
} from './spacing.ts';
export { type States, statesOf, supplyEarth } from './states.ts';
export { CORE_COLOURS, diagramStyles } from './styles.ts';
export { SYMBOL_SIZE } from './symbol-sizes.ts';
export { textWidth, wrap } from './text.ts';
