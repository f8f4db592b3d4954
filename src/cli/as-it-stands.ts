import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { AstroUserConfig } from 'astro';
import { homeFolder } from '../folder/index.ts';

type Plugins = NonNullable<NonNullable<AstroUserConfig['vite']>['plugins']>;

/** Code of the project that knows neither pages nor, as the two after it do, a bundler. */
const PLAIN = /^(src|schemas)\/(?!components\/|pages\/).*\.ts$/;
const BUNDLED = ['src/offline/client.ts', 'src/search/engine.ts'];

/**
 * Pages are made by the very modules that this process runs, and by no second copy of them that is
 * bundled, loaded and begun anew first: a fourth of the time of bundling.
 */
export function asItStands(): Plugins[number] {
  const home = homeFolder();
  return {
    name: 'code-as-it-stands',
    enforce: 'pre',
    applyToEnvironment: ({ name }) => name === 'prerender',
    resolveId: {
      filter: { id: /^\.{1,2}\/.*\.ts$/ },
      handler(id, importer) {
        if (!importer) return null;
        const file = resolve(dirname(importer), id);
        const path = file.startsWith(join(home, '/')) ? file.slice(home.length + 1) : '';
        if (!PLAIN.test(path) || BUNDLED.includes(path)) return null;
        return { id: pathToFileURL(file).href, external: 'absolute' };
      },
    },
  };
}
