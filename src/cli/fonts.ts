import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { advancesFile, FONT_FOLDER, makeFonts } from '../fonts/make.ts';
import { readOptions, runCommand } from './options.ts';

const USAGE = `npm run fonts
  cuts the served face from the fonts of the packages, and writes its advance widths for the drawings`;

await runCommand(async () => {
  readOptions(process.argv.slice(2), {}, USAGE);
  const fonts = await makeFonts();
  for (const [name, bytes] of fonts) await writeFile(join(FONT_FOLDER, name), bytes);
  const advances = 'src/diagram/advances.ts';
  await writeFile(advances, await advancesFile(fonts));
  for (const name of fonts.keys()) console.log(join(FONT_FOLDER, name));
  console.log(advances);
  return undefined;
});
