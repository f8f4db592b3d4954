/** From a circuit to its drawing: the door to this room. */
export { terminalAnchor } from './anchor.ts';
export { type Drawing, type DrawOptions, drawSystem } from './draw.ts';
export { drawLegend } from './legend.ts';
export { diagramStyles } from './styles.ts';
