import { defineConfig } from 'vitest/config';
import everyTier from '../../vitest.config.ts';

/** The unit tests alone: a property would else be tried again, ten times as often, as a proof. */
export default defineConfig({
  root: new URL('../..', import.meta.url).pathname,
  test: {
    ...everyTier.test,
    projects: (everyTier.test?.projects ?? []).slice(0, 1),
  },
});
