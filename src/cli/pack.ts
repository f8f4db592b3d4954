import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { isPage, type Manifest } from '../offline/manifest.ts';
import { launch } from '../publish/browser.ts';
import { bind, type Part } from '../publish/pack.ts';
import { pagesToPrint, printPage } from '../publish/print.ts';
import { readOptions, runCommand, text } from './options.ts';
import { startProgress } from './progress.ts';
import { serve } from './serve.ts';

const USAGE = `npm run pack [-- --site folder] [--out folder] [--only name,name]
  --site folder  the built site (default: dist)
  --out folder   where the PDFs are written (default: pack in the site's folder)
  --only names   last parts of pages' addresses, as in combi-two-wire,safe-isolation`;

/** Prints a built site: the reference or a part of it as one PDF, and the cupboard labels. */
async function run(): Promise<void> {
  const { site, out, only } = options();
  const manifest = await readManifest(site);
  const home = await readFile(join(site, 'index.html'), 'utf8');
  const base = /data-base="([^"]*)"/.exec(home)?.[1] ?? '/';
  const name = /data-title="([^"]*)"/.exec(home)?.[1] ?? 'Reference';
  const pages = pagesToPrint(
    manifest.packs
      .flatMap(({ files }) => files)
      .filter(isPage)
      .map((path) => path.replace(/index\.html$/, '')),
    only,
  );
  const progress = startProgress({
    stages: 4,
    headline: `Printing ${pages.length} pages of ${site}/`,
  });
  const server = await serve({ root: site, port: 0, base });
  const chromium = await progress.stage('Browser started', launch);
  try {
    const page = await chromium.browser.newPage({ serviceWorkers: 'block' });
    const parts: Part[] = [];
    await progress.stage('Pages printed', async (step) => {
      for (const path of pages) {
        parts.push(await printPage(page, server.address + path));
        step(parts.length, pages.length);
      }
    });
    await mkdir(out, { recursive: true });
    const head = {
      title: name,
      under: [
        `Version ${manifest.version}, built ${manifest.date}. Computed for sound installations wired as these pages show.`,
        'Prove the tester, isolate, lock off, prove dead. The maker’s instructions and local rules come before this reference.',
      ],
    };
    const bound = await progress.stage('Bound', () => bind(head, parts));
    await save(join(out, 'reference.pdf'), bound, parts.length);
    const labels = await progress.stage('Labels', async () => {
      await page.goto(`${server.address}labels/`);
      if ((await page.locator('.label-code[data-path]').count()) > 0) return undefined;
      return page.pdf({ preferCSSPageSize: true, printBackground: true });
    });
    progress.end();
    if (labels) await save(join(out, 'labels.pdf'), labels);
    else
      console.log(
        'labels.pdf left out: the labels’ codes need the address the site will be served at. Build with SITE_URL=https://…, or print the labels page from the site itself',
      );
  } finally {
    await chromium.close();
    await server.stop();
  }
}

function options(): { site: string; out: string; only: string[] } {
  const asked = readOptions(
    process.argv.slice(2),
    { site: 'value', out: 'value', only: 'value' },
    USAGE,
  );
  const site = text(asked, 'site') ?? 'dist';
  const only = (text(asked, 'only') ?? '').split(',').map((one) => one.trim());
  return {
    site,
    out: text(asked, 'out') ?? join(site, 'pack'),
    only: only.filter((one) => one !== ''),
  };
}

async function readManifest(site: string): Promise<Manifest> {
  try {
    return JSON.parse(await readFile(join(site, 'offline/manifest.json'), 'utf8'));
  } catch {
    throw new Error(`There is no built site in ${site}/. Build it: npm run build\n${USAGE}`);
  }
}

async function save(file: string, pdf: Uint8Array, parts?: number): Promise<void> {
  await writeFile(file, pdf);
  const size = `${(pdf.length / 1e6).toFixed(1)} MB`;
  console.log(`${file}: ${size}${parts === undefined ? '' : `, ${parts} entries`}`);
}

await runCommand(async () => {
  await run();
  return 0;
});
