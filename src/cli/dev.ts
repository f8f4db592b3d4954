import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { dev } from 'astro';
import { checkSources } from '../firm/index.ts';
import { homeFolder } from '../folder/index.ts';
import { basePath, siteAddress } from './base-path.ts';
import { entryForm, FORM } from './entry-form.ts';
import { readOptions, runCommand, takeFirm, text } from './options.ts';
import { LONG, startProgress } from './progress.ts';
import { watchEntries } from './watch-entries.ts';

const USAGE = `npm run dev [-- --firm folder]
  serves the pages while entries are written; PORT says where, HOST to whom`;

/** The folder that the page maker's package lies in. */
const packages = (): string =>
  dirname(dirname(createRequire(import.meta.url).resolve('astro/package.json')));

await runCommand(async () => {
  const asked = readOptions(process.argv.slice(2), { firm: 'value' }, USAGE);
  takeFirm(text(asked, 'firm'));
  const { PORT: port, HOST: host } = process.env;
  const progress = startProgress({ stages: 2, quietFor: LONG });
  const { firm } = await progress.stage('Entries', (step) => checkSources({ step }));
  const base = basePath(firm?.settings).replace(/\/*$/, '/');
  const site = siteAddress(firm?.settings);
  const { resolvedUrls } = await progress.stage('Page server', () =>
    dev({
      root: homeFolder(),
      logLevel: 'warn',
      // Packages may lie beside Proveline's own folder, as those of a firm do.
      vite: { server: { fs: { allow: [homeFolder(), packages()] } } },
      integrations: [entryForm, watchEntries],
      base,
      ...(site === undefined ? {} : { site }),
      server: { ...(port ? { port: Number(port) } : {}), ...(host ? { host } : {}) },
    }),
  );
  progress.end();
  const addresses = [...resolvedUrls.local, ...resolvedUrls.network].map(
    (url) => new URL(base, url).href,
  );
  for (const address of addresses) console.log(address);
  if (addresses[0]) console.log(`Entries as a form: ${addresses[0]}${FORM}`);
  return undefined;
});
