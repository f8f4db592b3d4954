/*
 * How long something is waited for before it is given up, ms. They judge nobody's speed, which is
 * for the benchmarks: tests of the site run beside the proofs, on machines of any speed.
 */

/** A test. */
export const TEST_PATIENCE = 1_800_000;

/** One thing that a page is to do. */
export const PAGE_PATIENCE = 180_000;
