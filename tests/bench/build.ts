import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { build as buildPages } from 'astro';
import { makeHouse } from '../support/house.ts';
import { table } from './table.ts';

const SYSTEM = 'content/systems/combi-two-wire.mdx';
/** A device that every system has. */
const DEVICE = 'content/devices/fused-connection-unit.mdx';

async function secondsOf(work: () => unknown): Promise<number> {
  const began = performance.now();
  await work();
  return (performance.now() - began) / 1000;
}

/**
 * Makes pages of plain Astro that say what the built pages say, and nothing is worked out for
 * them: each is one file that is read and laid into one template.
 */
function plainProject(site: string, project: string): number {
  const pages = readdirSync(site, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.html'),
  );
  for (const page of pages) {
    const html = readFileSync(join(site, page), 'utf8');
    const main = /<main[^>]*>([\s\S]*)<\/main>/.exec(html)?.[1] ?? '';
    const file = join(project, 'words', page.replaceAll('/', '__'));
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, main);
  }
  mkdirSync(join(project, 'src/pages'), { recursive: true });
  writeFileSync(
    join(project, 'src/pages/[page].astro'),
    `---
import { readdirSync, readFileSync } from 'node:fs';
export function getStaticPaths() {
  return readdirSync(${JSON.stringify(join(project, 'words'))}).map((page) => ({ params: { page } }));
}
const words = readFileSync(${JSON.stringify(join(project, 'words'))} + '/' + Astro.params.page, 'utf8');
---
<!doctype html><html lang="en-GB"><head><meta charset="utf-8" /><title>plain</title></head><body set:html={words} /></html>
`,
  );
  return pages.length;
}

/** Builds of the whole site, cold and after edits, beside a plain build of the same pages. */
export async function buildTable(): Promise<string> {
  const house = makeHouse();
  try {
    const rows: [string, number][] = [];
    const time = async (what: string, work: () => unknown = () => house.build()) =>
      rows.push([what, await secondsOf(work)]);
    await time('nothing kept');
    await time('nothing changed');
    house.edit(SYSTEM, /^summary: /m, 'summary: Plainly, ');
    await time('a word of one system');
    house.edit(SYSTEM, 'length: 15', 'length: 14');
    await time('a length in one system');
    house.edit(DEVICE, 'minutes: 3', 'minutes: 4');
    await time('a device that all have');
    const plain = house.path('plain');
    const pages = plainProject(house.path('dist'), plain);
    const build = () =>
      buildPages({
        root: plain,
        configFile: false,
        logLevel: 'silent',
        outDir: join(plain, 'dist'),
      });
    await build();
    rmSync(join(plain, 'dist'), { recursive: true, force: true });
    const yardstick = await secondsOf(build);
    return `${table(
      ['build', 'seconds', 'of plain'],
      rows.map(([what, s]) => [what, s.toFixed(1), `${(s / yardstick).toFixed(1)}×`]),
    )}

plain: ${pages} pages of the same words laid into one template by Astro alone, ${yardstick.toFixed(1)} s; nothing is
worked out, indexed or packed for them.
`;
  } finally {
    house.remove();
  }
}
