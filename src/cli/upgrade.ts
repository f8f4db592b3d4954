import { contentFolder, firmFolder } from '../firm/index.ts';
import { asTyped, ownVersion } from '../folder/index.ts';
import { readOptions, runCommand, takeFirm, text } from './options.ts';
import { upgrade } from './package/upgrade-firm.ts';

const USAGE = `npm run upgrade -- --firm folder
  brings the firm's entries to this version of Proveline, and says what it changed`;

await runCommand(async () => {
  takeFirm(text(readOptions(process.argv.slice(2), { firm: 'value' }, USAGE), 'firm'));
  const firm = firmFolder();
  if (firm === undefined)
    throw new Error('Say --firm FOLDER: it is a firm’s entries that are upgraded');
  const version = ownVersion();
  const changes = upgrade({ firm, content: contentFolder() }, version);
  for (const line of changes) console.log(line);
  console.log(
    changes.length === 0
      ? `Nothing had to be changed for Proveline ${version}.`
      : asTyped(
          `${changes.length} changed for Proveline ${version}. Read them (git diff), then npm run check: an entry whose wiring or devices read otherwise is a draft until it is reviewed again.`,
        ),
  );
  return undefined;
});
