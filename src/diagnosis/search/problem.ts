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
  /** Along any path phases never go down; 0 when left out. */
  readonly phase?: number;
  /** Answer code of each fault: whole numbers from 0. */
  readonly answers: ArrayLike<number>;
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
  readonly start: { readonly mode: number; readonly opened: readonly number[] };
}
