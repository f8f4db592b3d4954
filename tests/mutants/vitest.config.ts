import { defineConfig } from 'vitest/config';
import everyTier from '../../vitest.config.ts';

const { execArgv: _, projects = [], ...test } = everyTier.test ?? {};
const [unit] = projects;
if (typeof unit !== 'object' || !('test' in unit)) throw new Error('there is no unit project');

/**
 * The unit tests alone: a property would else be tried again, ten times as often, as a proof. Each
 * file loads everything for itself: what one mutant worked out is no answer for the next.
 */
export default defineConfig({
  root: new URL('../..', import.meta.url).pathname,
  test: { ...test, projects: [{ ...unit, test: { ...unit.test, isolate: true } }] },
});
