import mdx from '@astrojs/mdx';
import type { AstroIntegration } from 'astro';
import { defineConfig } from 'astro/config';
import { contentFolder, forgetReference } from './src/reference/index.ts';

/** Path the site is served under, as in `/reference`; the root when not set. */
const base = process.env.BASE_PATH ?? '/';
const site = process.env.SITE_URL;

/** Lets a running server show edited entries: what was computed from them is forgotten. */
const freshEntries: AstroIntegration = {
  name: 'fresh-entries',
  hooks: {
    'astro:server:setup': ({ server }) => {
      const folder = contentFolder();
      server.watcher.add(folder);
      server.watcher.on('all', (_, file) => {
        if (!file.startsWith(folder)) return;
        forgetReference();
        server.ws.send({ type: 'full-reload' });
      });
    },
  },
};

/** Loading a schema changes nothing: a bundle that uses none leaves them out, and Zod with them. */
const treeshake = { moduleSideEffects: [{ test: /\/schemas\/[a-z-]+\.ts$/, sideEffects: false }] };

export default defineConfig({
  base,
  ...(site ? { site } : {}),
  trailingSlash: 'always',
  build: { format: 'directory', inlineStylesheets: 'never' },
  devToolbar: { enabled: false },
  markdown: { syntaxHighlight: false },
  integrations: [mdx({ optimize: true }), freshEntries],
  vite: {
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
