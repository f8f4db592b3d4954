/** One fault, or several with equal answers to every test and one repair. */
export interface SearchFault {
  /** How likely, relative to the others; above zero. */
  readonly weight: number;
  /** Index of its repair: faults that share one need not be told apart. */
  readonly repair: number;
}

/** One test. Its answers divide the faults. */
export interface SearchTest {
  readonly id: string;
  /** Minutes for the reading alone, neither change of mode nor opening counted. */
  readonly minutes: number;
  /** Index of the mode it is taken in. */
  readonly mode: number;
  /** Index of the place that must stand open; −1 for none. */
  readonly place: number;
  /** Answer code of each fault: whole numbers from 0. */
  readonly answers: ArrayLike<number>;
}

/**
 * Rules of good practice, which no saving outweighs. What a test tells is the share of the
 * weight that it parts from the heaviest answer. Tests of one setup (mode and place) that cost
 * nothing are made together, and count as one.
 */
export interface Rules {
  /**
   * Covers on first: while a test that needs no place tells at least `share` and takes at most
   * `minutes`, change of mode included, only such tests are made; not while places stand open
   * in the opening mode.
   */
  readonly coversOn: { readonly minutes: number; readonly share: number };
  /**
   * Finish the open box: in the opening mode with a place open, while a test there that takes
   * at most `minutes` tells at least `share` a minute, only tests of open places are made.
   */
  readonly openBox: { readonly minutes: number; readonly share: number };
}

/** What is to be told apart, with what, and at what cost. */
export interface SearchProblem {
  readonly faults: readonly SearchFault[];
  readonly tests: readonly SearchTest[];
  /**
   * Minutes to change modes: from row to column, or one number for each mode entered. A
   * change goes by way of other modes where that takes less. Staying costs nothing.
   */
  readonly modeMinutes: readonly number[] | readonly (readonly number[])[];
  /** Minutes to open each place; paid once along a path. */
  readonly placeMinutes: readonly number[];
  /** Mode in which places are opened: a test at a closed one goes by way of it. Any, if absent. */
  readonly openingMode?: number;
  /** Rules that every tree keeps; none if absent. */
  readonly rules?: Rules;
  readonly start: { readonly mode: number; readonly opened: readonly number[] };
}

/** A test to take, and what each answer leads to; or an end. */
export type SearchTree = SearchStep | SearchLeaf;

export interface SearchStep {
  readonly kind: 'test';
  /** Index of the test. */
  readonly test: number;
  /** Indices of the faults still open before it, ascending. */
  readonly faults: readonly number[];
  /** One branch for each answer that the open faults give, by ascending code. */
  readonly branches: readonly { readonly answer: number; readonly next: SearchTree }[];
}

export interface SearchLeaf {
  readonly kind: 'end';
  /** Faults that share one repair, or that no test tells apart; ascending. */
  readonly faults: readonly number[];
}

export interface SearchResult {
  readonly tree: SearchTree;
  /** Expected minutes of the tree, weights taken as probabilities. */
  readonly minutes: number;
  /** No tree takes fewer expected minutes than this. */
  readonly lowerBound: number;
  /** Whether no tree takes fewer minutes than the one found. */
  readonly proven: boolean;
  /** Share of the tree's minutes not proven necessary: 0 when proven, 0.1 for ten per cent. */
  readonly gap: number;
  /** States expanded: the same for the same problem and budget on every machine. */
  readonly expanded: number;
}
