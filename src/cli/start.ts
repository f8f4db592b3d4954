import { buildSite } from './build.ts';
import { readOptions, runCommand, takeFirm, text } from './options.ts';
import { serveAsAsked } from './serve.ts';

const USAGE = `npm start [-- --firm folder] [--out folder]
  builds the site and serves it; PORT and HOST say where`;

await runCommand(async () => {
  const asked = readOptions(process.argv.slice(2), { firm: 'value', out: 'value' }, USAGE);
  takeFirm(text(asked, 'firm'));
  const { out } = await buildSite(text(asked, 'out'));
  await serveAsAsked(out);
  return undefined;
});
