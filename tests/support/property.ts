import { test } from '@fast-check/vitest';
import fc from 'fast-check';
import { inject } from 'vitest';
import { type Random, randoms } from './random.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** What all choices of this run come from. */
    seed: number;
    /** How many times as many trials a property gets as its test says. */
    effort: number;
  }
}

/**
 * Seed of this run: fixed in `npm test`, so that a failure is met again, fresh in `npm run
 * proofs`; SEED in the environment decides it. Tests that draw by it print it in their names.
 */
export const SEED: number = inject('seed');

/** Whether this is a run of the proofs, in which everything is tried that there is to try. */
export const PROVING: boolean = inject('effort') > 1;

/** Of a list, what is tried in this run: the first few, and in the proofs all. */
export const tried = <T>(all: readonly T[], few: number): readonly T[] =>
  PROVING ? all : all.slice(0, few);

/** Milliseconds that a property's trials and the search for the smallest failure may take. */
const MOST = 60_000;

/**
 * A test of what holds whatever is drawn.
 * @param trials how often it is tried in `npm test`; ten times as often in `npm run proofs`.
 */
export function property(
  name: string,
  trials: number,
  holds: (from: Random) => void | Promise<void>,
): void;
/** The same of values that fast-check makes itself. */
export function property<T>(
  name: string,
  trials: number,
  holds: (value: T) => void | Promise<void>,
  values: fc.Arbitrary<T>,
): void;
export function property<T>(
  name: string,
  trials: number,
  holds: (value: T | Random) => void | Promise<void>,
  values: fc.Arbitrary<T> | fc.Arbitrary<Random> = randoms,
): void {
  const effort = inject('effort');
  const plugins = [fc.interruptAfterTimeLimit(MOST * effort, { failOnInterrupt: true })];
  const how = { seed: SEED, numRuns: trials * effort, plugins };
  test.prop<[T | Random]>([values], how)(name, async (value) => {
    await holds(value);
  });
}
