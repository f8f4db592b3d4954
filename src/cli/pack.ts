import { existsSync } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { FIRM_FILE } from '../../schemas/index.ts';
import { fileSystem, formatProblems } from '../entries/index.ts';
import { firmFlag, firmFolder, located, readFirm } from '../firm/index.ts';
import { typedPath } from '../folder/index.ts';
import { launch } from '../publish/browser.ts';
import { readSite } from '../publish/built-site.ts';
import { type Chapter, chaptersOf, isByTitle, isSheet, pagesToPrint } from '../publish/chapters.ts';
import { bind } from '../publish/pack.ts';
import { type Part, type Press, printRun, printSheet, warmUp } from '../publish/print.ts';
import { printContents, printCover, printFeet } from '../publish/print-front.ts';
import { readOptions, runCommand, takeFirm, text, WrongUse } from './options.ts';
import { BUILT_MARK, OUT, packFolder } from './output.ts';
import { startProgress } from './progress.ts';
import { serve } from './serve.ts';

const USAGE = `npm run pack [-- --from folder] [--firm folder] [--out folder] [--only name,name]
  --from folder  the built site whose pages are bound (default: dist)
  --firm folder  the firm whose site that must be
  --out folder   where the PDFs are written (default: pack in the site's folder)
  --only names   last parts of pages' addresses, as in combi-two-wire,safe-isolation`;

/** Prints a built site: the reference or a part of it as one PDF, and the cupboard labels. */
async function run(): Promise<void> {
  const { from, firm, out, only } = options();
  if (existsSync(join(from, FIRM_FILE)) && !existsSync(join(from, 'index.html')))
    throw new Error(
      `${from}/ is the folder of a firm, not a built site: it holds ${FIRM_FILE} and no index.html. Build it, and name what is built: npm run build -- --firm ${typedPath(from)} --out ${typedPath(`${from}-site`)}`,
    );
  const site = await readSite(from, firmFlag(firm));
  const { name, version, date, base, pages: all } = site;
  if (firm !== undefined) mustBelongTo(firm, from, name);
  const pages = pagesToPrint(all, only);
  const progress = startProgress({
    stages: 4,
    headline: `Binding ${count(pages.length)} of ${name}, version ${version} of ${date}, from ${from}/ into ${out}/`,
  });
  const server = await serve({ root: from, port: 0, base });
  const chromium = await progress.stage('Browser started', () => launch());
  try {
    const page = await chromium.browser.newPage({ serviceWorkers: 'block' });
    const press = { page, address: server.address };
    const chapters = await progress.stage('Pages printed', (step) => printed(press, pages, step));
    await mkdir(out, { recursive: true });
    const bound = await progress.stage('Bound', () =>
      bind({ title: name, address: press.address }, chapters, {
        cover: () => printCover(press, site, pages.length),
        contents: (lines) => printContents(press, lines),
        numbers: (all) => printFeet(press, site, all),
      }),
    );
    await save(join(out, 'reference.pdf'), bound, `, ${count(pages.length)} of ${name}`);
    const labels = await progress.stage('Labels', async () => {
      await page.goto(`${server.address}labels/`);
      await page.locator('.cupboard-label .built.told').first().waitFor({ state: 'attached' });
      if ((await page.locator('.label-code[data-path]').count()) > 0) return undefined;
      return page.pdf({ preferCSSPageSize: true, printBackground: true });
    });
    progress.end();
    if (labels) await save(join(out, 'labels.pdf'), labels);
    else
      console.log(
        'labels.pdf left out: the labels’ codes need the address the site will be served at. Write site: https://… in firm.yaml or set SITE_URL=https://…, and build again; or print the labels page from the site itself',
      );
  } finally {
    await chromium.close();
    await server.stop();
  }
}

/** Prints pages by chapter: sheets each for itself, all others one after another. */
async function printed(
  press: Press,
  pages: readonly string[],
  step: (done: number, all: number) => void,
): Promise<Chapter<Part>[]> {
  await warmUp(press);
  const chapters: Chapter<Part>[] = [];
  let done = 0;
  for (const { title, pages: paths } of chaptersOf(pages)) {
    const [sheets, others] = [paths.filter(isSheet), paths.filter((path) => !isSheet(path))];
    const parts: Part[] = [];
    for (const path of sheets) {
      parts.push(await printSheet(press, path));
      done += 1;
      step(done, pages.length);
    }
    if (others.length > 0) parts.push(await printRun(press, others, isByTitle(others)));
    done += others.length;
    step(done, pages.length);
    chapters.push({ title, pages: parts });
  }
  return chapters;
}

/** @throws Error when a site is not a firm's, or the folder is no firm's */
function mustBelongTo(folder: string, site: string, name: string): void {
  if (existsSync(join(folder, BUILT_MARK)) && !existsSync(join(folder, FIRM_FILE)))
    throw new Error(
      `--firm ${relative('.', folder)} is a built site, not the folder of a firm: it holds ${BUILT_MARK} and no ${FIRM_FILE}. Name the folder that it was built from, and this one with --from`,
    );
  const { firm, problems } = readFirm(folder, fileSystem);
  if (!firm) throw new Error(formatProblems(problems.map(located)));
  const firmName = firm.settings.name;
  if (firmName === name) return;
  throw new Error(
    `${site}/ holds the pages of ${name}, not of ${firmName}. Name the folder that was built for ${firmName} with --from, or build it: npm run build -- --firm ${typedPath(relative('.', folder) || '.')} --out ${typedPath(`${relative('.', folder) || '../our'}-site`)}`,
  );
}

interface Options {
  readonly from: string;
  readonly firm: string | undefined;
  readonly out: string;
  readonly only: readonly string[];
}

function options(): Options {
  const asked = readOptions(
    process.argv.slice(2),
    { from: 'value', firm: 'value', out: 'value', only: 'value' },
    USAGE,
  );
  if (asked.words.length > 0)
    throw new WrongUse(`“${asked.words[0]}” belongs to no option\n${USAGE}`);
  const from = (text(asked, 'from') ?? OUT).replace(/(?<=.)\/+$/, '');
  takeFirm(text(asked, 'firm'));
  const only = (text(asked, 'only') ?? '').split(',').map((one) => one.trim());
  return {
    from,
    firm: firmFolder(),
    out: packFolder(text(asked, 'out'), from),
    only: only.filter((one) => one !== ''),
  };
}

const count = (pages: number) => `${pages} ${pages === 1 ? 'page' : 'pages'}`;

async function save(file: string, pdf: Uint8Array, of = ''): Promise<void> {
  await writeFile(file, pdf);
  const size = `${(pdf.length / 1e6).toFixed(1)} MB`;
  console.log(`${file}: ${size}${of}`);
}

await runCommand(async () => {
  await run();
  return 0;
});
