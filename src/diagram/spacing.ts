/** Distances and type sizes of a drawing, px. */
export interface Spacing {
  /** Width the drawing keeps to when its conductors leave room. */
  readonly sheet: number;
  /** Least height of a terminal, so that a finger finds it. */
  readonly row: number;
  /** Between two conductors in one terminal. */
  readonly slot: number;
  /** Between two cores of one cable. */
  readonly track: number;
  /** Between cores of different cables. */
  readonly apart: number;
  /** Between two boxes, where the cables' tags stand. */
  readonly gap: number;
  /** Width that a box's inside is laid out for, and the most that a box is given. */
  readonly box: { readonly aim: number; readonly most: number };
  /** From a box's outline to what stands in it. */
  readonly pad: number;
  /** Above a box's heading and below it. */
  readonly head: number;
  /** Whether a core's label says its cable too. */
  readonly cableAtEnds: boolean;
  /** Width that is worth as much as one crossing saved, px. */
  readonly crossing: number;
  /** What is tried where the drawing is wider than its sheet: boxes and cables closer together. */
  readonly tight?: { readonly apart: number; readonly aim: number };
  /** Sizes of the smallest letters: what is said under a name or at a symbol, and cores' codes. */
  readonly letters: { readonly label: number; readonly code: number };
  /** Conductors leave a box only at whole multiples of this below its top; anywhere without it. */
  readonly grid?: number;
}

/** Sizes of letters, px: the smallest as on a screen. */
export const TYPE = {
  reference: 16,
  title: 13,
  place: 12,
  name: 13,
  label: 11.5,
  code: 11,
} as const;
export const LINE = { title: 16, label: 12.5 } as const;

/** For 360 px with 8 px on either side. */
export const NARROW: Spacing = {
  sheet: 344,
  row: 30,
  slot: 13,
  track: 7,
  apart: 8,
  gap: 28,
  box: { aim: 184, most: 300 },
  tight: { apart: 7, aim: 130 },
  letters: TYPE,
  pad: 8,
  head: 7,
  cableAtEnds: false,
  crossing: 2 / 3,
};

/** For a desk or a printed sheet. */
export const WIDE: Spacing = {
  sheet: 720,
  row: 34,
  slot: 16,
  track: 10,
  apart: 16,
  gap: 36,
  box: { aim: 300, most: 420 },
  letters: TYPE,
  pad: 14,
  head: 7,
  cableAtEnds: true,
  crossing: 2 / 3,
};

/** For a desk or a sheet laid across: boxes in three columns with two channels between them. */
export const LANDSCAPE: Spacing = {
  sheet: 1180,
  row: 28,
  slot: 14,
  track: 7,
  apart: 8,
  gap: 28,
  box: { aim: 230, most: 290 },
  letters: TYPE,
  pad: 10,
  head: 5,
  cableAtEnds: true,
  crossing: 4,
  grid: 14,
};

/** On paper no finger has to find anything: letters are as large as all the rest allows. */
const ON_PAPER = { label: 12, code: 12 } as const;

/** Across on paper, as wide as an A4 sheet with letters of 6.5 pt at least. */
export const PAPER_ACROSS: Spacing = {
  ...LANDSCAPE,
  sheet: 1014,
  row: 20,
  slot: 12,
  track: 6,
  apart: 6,
  gap: 12,
  box: { aim: 190, most: 290 },
  pad: 5,
  head: 4,
  letters: ON_PAPER,
  grid: 12,
};

/** Upright on paper, beside the tables of a small system. */
export const PAPER_UPRIGHT: Spacing = {
  ...NARROW,
  sheet: 334,
  row: 24,
  gap: 22,
  letters: ON_PAPER,
};

/** Room inside a terminal for its screw, px from the strip's edge. */
export const SCREW = { inset: 8, radius: 3.6, room: 15 } as const;

/** Ticks across a live conductor. */
export const TICK = { width: 1.4, every: 16, reach: 4 } as const;

/** A cable's tag. */
export const TAG = { height: 15, side: 4 } as const;

/** Least height between the ends of two runs in one track. */
export const END_CLEARANCE = 9;

/** How many times a drawing may be enlarged on a screen. */
export const MOST_ZOOM = 3;
