import type { SymbolKind } from './inside.ts';

/** Width a symbol takes on its line and height it takes above it and below it, px. */
export const SYMBOL_SIZE: Readonly<
  Record<SymbolKind, { width: number; up: number; down: number }>
> = {
  link: { width: 10, up: 2, down: 2 },
  contact: { width: 24, up: 10, down: 4 },
  breaker: { width: 24, up: 10, down: 4 },
  fuse: { width: 24, up: 5, down: 5 },
  board: { width: 30, up: 8, down: 8 },
  lamp: { width: 26, up: 9, down: 9 },
  heater: { width: 28, up: 6, down: 6 },
  coil: { width: 22, up: 9, down: 9 },
  motor: { width: 26, up: 10, down: 10 },
  sensing: { width: 26, up: 9, down: 9 },
  resistor: { width: 26, up: 5, down: 5 },
  source: { width: 20, up: 10, down: 8 },
  mains: { width: 26, up: 10, down: 10 },
};
