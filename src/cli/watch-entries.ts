import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { AstroIntegration } from 'astro';
import { formatProblems, type Problem } from '../entries/index.ts';
import { checkSources, contentFolder, firmFolder, located } from '../firm/index.ts';
import { forgetReference, offerSources } from '../reference/index.ts';
import { FORM } from './entry-form.ts';
import { NO_SOURCE } from './kept-site.ts';
import { problemPage } from './problem-page.ts';

/** Changes that come within this time are checked together, ms. */
const TOGETHER = 40;

/** What of a firm's folder pages are made from: its packages and caches change all the time. */
const sourcesOf = (firm: string) =>
  readdirSync(firm)
    .filter((name) => !NO_SOURCE.has(name))
    .map((name) => join(firm, name));

/**
 * Checks entries while they are written: what is wrong is said in the terminal and stands in
 * the place of every page until it is mended, and pages show what entries say now.
 */
export const watchEntries: AstroIntegration = {
  name: 'watch-entries',
  hooks: {
    'astro:server:setup': ({ server }) => {
      const firm = firmFolder();
      const folders = [contentFolder(), ...(firm ? sourcesOf(firm) : [])];
      let problems: readonly Problem[] = [];
      let waiting: NodeJS.Timeout | undefined;
      const check = () => {
        const start = performance.now();
        const checked = checkSources();
        const took = Math.round(performance.now() - start);
        const had = problems.length;
        problems = checked.problems;
        offerSources(checked);
        if (problems.length > 0)
          console.log(
            `\n${formatProblems(problems.map(located))}\n\n${problems.length} wrong (${took} ms)`,
          );
        else if (had > 0) console.log(`\nEntries in order (${took} ms)`);
        server.ws.send({ type: 'full-reload' });
      };
      server.watcher.add(folders);
      server.watcher.on('all', (_, file) => {
        if (!folders.some((folder) => file.startsWith(folder))) return;
        forgetReference();
        clearTimeout(waiting);
        waiting = setTimeout(check, TOGETHER);
      });
      server.middlewares.use((request, response, next) => {
        const isPage = request.headers.accept?.includes('text/html') ?? false;
        // The form is where they are mended.
        const isForm = request.url?.includes(`/${FORM}`) ?? false;
        if (problems.length === 0 || !isPage || isForm) return next();
        response.writeHead(500, { 'content-type': 'text/html; charset=utf-8' });
        response.end(problemPage(problems, server.config.base));
      });
      check();
    },
  },
};
