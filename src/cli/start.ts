import { buildSite } from './build.ts';
import { readOptions, runCommand, takeFirm, text } from './options.ts';
import { serveAsAsked, tryPort } from './serve.ts';

const USAGE = `npm start [-- --firm folder] [--out folder]
  builds the site and serves it; PORT and HOST say where`;

await runCommand(async () => {
  const given = process.argv.slice(2);
  const asked = readOptions(given, { firm: 'value', out: 'value' }, USAGE);
  const command = ['npm start', ...(given.length > 0 ? ['--', ...given] : [])].join(' ');
  await tryPort(command);
  takeFirm(text(asked, 'firm'));
  const { out } = await buildSite(text(asked, 'out'));
  await serveAsAsked(out, command);
  return undefined;
});
