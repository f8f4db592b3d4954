import mdx from '@astrojs/mdx';
import { defineConfig } from 'astro/config';

/** Path the site is served under, as in `/reference`; the root when not set. */
const base = process.env.BASE_PATH ?? '/';
const site = process.env.SITE_URL;

// What is built here is nobody else's to count.
process.env.ASTRO_TELEMETRY_DISABLED = '1';

/** Loading a schema changes nothing: a bundle that uses none leaves them out, and Zod with them. */
const treeshake = { moduleSideEffects: [{ test: /\/schemas\/[a-z-]+\.ts$/, sideEffects: false }] };

export default defineConfig({
  base,
  ...(site ? { site } : {}),
  trailingSlash: 'always',
  // While one page is written, the next is rendered.
  build: { format: 'directory', inlineStylesheets: 'never', concurrency: 4 },
  // Pages that name what they are made from, see `systemPageKeys`, are kept from build to build.
  experimental: { incrementalBuild: true },
  devToolbar: { enabled: false },
  markdown: { syntaxHighlight: false },
  // Links in prose stay components, which put them under the base path.
  integrations: [mdx({ optimize: { ignoreElementNames: ['a'] } })],
  vite: {
    cacheDir: './.astro/vite',
    // No script or style is small enough to stand inline: pages stay plain and share them.
    build: {
      assetsInlineLimit: 0,
      rolldownOptions: {
        treeshake,
        onLog(level, log, handle) {
          // Astro marks every prose module so; a static build has no use for the mark.
          if (log.code !== 'MODULE_LEVEL_DIRECTIVE') handle(level, log);
        },
      },
    },
    worker: { rolldownOptions: { treeshake } },
  },
});
