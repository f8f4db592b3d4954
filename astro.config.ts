import mdx from '@astrojs/mdx';
import { defineConfig } from 'astro/config';

/** Path the site is served under, as in `/reference`; the root when not set. */
const base = process.env.BASE_PATH ?? '/';
const site = process.env.SITE_URL;

export default defineConfig({
  base,
  ...(site ? { site } : {}),
  trailingSlash: 'always',
  build: { format: 'directory', inlineStylesheets: 'never' },
  devToolbar: { enabled: false },
  markdown: { syntaxHighlight: false },
  integrations: [mdx({ optimize: true })],
  vite: {
    // No script or style is small enough to stand inline: pages stay plain and share them.
    build: {
      assetsInlineLimit: 0,
      rolldownOptions: {
        onLog(level, log, handle) {
          // Astro marks every prose module so; a static build has no use for the mark.
          if (log.code !== 'MODULE_LEVEL_DIRECTIVE') handle(level, log);
        },
      },
    },
  },
});
