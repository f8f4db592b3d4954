import { dev } from 'astro';
import { checkSources } from '../firm/index.ts';
import { basePath } from './base-path.ts';
import { readOptions, runCommand, takeFirm, text } from './options.ts';

const USAGE = `npm run dev [-- --firm folder]
  serves the pages while entries are written; PORT says where, HOST to whom`;

await runCommand(async () => {
  const asked = readOptions(process.argv.slice(2), { firm: 'value' }, USAGE);
  takeFirm(text(asked, 'firm'));
  const { PORT: port, HOST: host } = process.env;
  await dev({
    logLevel: 'warn',
    base: basePath(checkSources().firm?.settings),
    server: { ...(port ? { port: Number(port) } : {}), ...(host ? { host } : {}) },
  });
  return undefined;
});
