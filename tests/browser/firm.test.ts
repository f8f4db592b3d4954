import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { PDFDocument } from '@cantoo/pdf-lib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { serve } from '../../src/cli/serve.ts';
import { KEPT_COUNTS } from '../../src/components/shell/early.ts';
import { hostileFirm } from '../firm/hostile-firm.ts';
import {
  builtPage,
  launch,
  openTab,
  pagesOf,
  readManifest,
  type TestBrowser,
  waitUntilSaved,
} from './harness.ts';
import { textOfPages } from './pdf-text.ts';

const PROJECT = fileURLToPath(new URL('../../', import.meta.url));
/** What a copy of the project holds; packages are linked, since every copy has the same. */
const COPIED =
  'content public schemas src tests/fixtures astro.config.ts package.json tsconfig.json';

let work: string;
let copy: string;
let tests: TestBrowser;

beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), 'firm-site-'));
  copy = join(work, 'proveline');
  for (const path of COPIED.split(' '))
    cpSync(join(PROJECT, path), join(copy, path), { recursive: true });
  symlinkSync(join(PROJECT, 'node_modules'), join(copy, 'node_modules'));
  // One system is enough to build on, and quick: its symptoms are those of many systems.
  rmSync(join(copy, 'content/symptoms'), { recursive: true });
  for (const name of readdirSync(join(copy, 'content/systems')))
    if (name !== 'combi-two-wire.mdx') rmSync(join(copy, 'content/systems', name));
  tests = await launch();
});
afterAll(async () => {
  await tests.close();
  rmSync(work, { recursive: true });
});

/** The surroundings of a reader, without what this runner of tests sets for itself. */
const { NODE_ENV, MODE, DEV, PROD, SSR, VITEST, SITE_FOLDER, ...surroundings } = process.env;

/** Runs a command line in the copy, as a reader of the README types it. */
function run(command: string, env: Readonly<Record<string, string>> = {}) {
  const { status, stdout, stderr } = spawnSync('sh', ['-c', command], {
    cwd: copy,
    encoding: 'utf8',
    env: { ...surroundings, ...env },
  });
  return { status, said: `${stdout}${stderr}` };
}

/** Every file of a folder with its size and time; packages and the page maker's store left out. */
function stateOf(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter(({ name }) => name !== 'node_modules' && name !== '.astro')
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return stateOf(path);
      return [`${path} ${statSync(path).size} ${statSync(path).mtimeMs}`];
    })
    .toSorted();
}

/** Commands of the README's section on a firm's own folder, in order. */
function commandsOfReadme(): string[] {
  const readme = readFileSync(join(PROJECT, 'README.md'), 'utf8');
  const [, section = ''] = readme.split("\n## A firm's own folder\n");
  const [, block = ''] = /```sh\n([\s\S]*?)```/.exec(section) ?? [];
  return block.trim().split('\n');
}

const edit = (file: string, from: string | RegExp, to: string) => {
  const text = readFileSync(file, 'utf8');
  expect(text).toMatch(from);
  writeFileSync(file, text.replace(from, to));
};

/** Starts the README's serving command and waits for the address that it prints. */
function serving(command: string): Promise<{ address: string; child: ChildProcess }> {
  const child = spawn('sh', ['-c', `exec ${command}`], {
    cwd: copy,
    env: { ...surroundings, PORT: '0' },
    detached: true,
  });
  return new Promise((resolve, reject) => {
    let said = '';
    child.stdout?.on('data', (part: Buffer) => {
      said += part;
      const address = /at (http:\S+)/.exec(said)?.[1];
      if (address) resolve({ address, child });
    });
    child.on('exit', () => reject(new Error(`the server ended: ${said}`)));
  });
}

/** Pages of parts of a system, by what stands after its own address. */
const PARTS_OF_A_DRAFT = [
  'readings/',
  'diagram/',
  'wiring/',
  'live-path/',
  'as-found/',
  'comes-and-goes/',
  'replace/',
];
/** More than the one line, in px, that saying so may take. */
const LINE = 40;

describe('a newcomer with nothing but the README', () => {
  const commands = commandsOfReadme();
  const [install, newFirm, newStandard, newSystem, importTable, check, review] = commands;
  const [build, serveSite, pack, ...more] = commands.slice(7);
  const firm = () => join(work, 'our-firm');

  test('makes a firm’s folder, a house rule, and a system from the table', () => {
    expect(install).toBe('npm ci');
    expect(more).toEqual([]);
    for (const command of [newFirm!, newStandard!, newSystem!]) {
      const { status, said } = run(command);
      expect([command, status, said]).toEqual([command, 0, said]);
    }
    const rule = join(firm(), 'content/standards/volt-drop.mdx');
    edit(rule, /most: \d/, 'most: 3');
    expect(run(check!).said).toContain('the rule has no such limit as 5 %');
    edit(rule, 'at most 5 %', 'at most 3 %');
    edit(join(firm(), 'firm.yaml'), 'base: /  ', 'base: /ours/');
    edit(join(firm(), 'firm.yaml'), /^# site: \S+/m, 'site: https://host.example');
    edit(
      join(firm(), 'firm.yaml'),
      'contact: {}',
      'contact: { phone: "01632 960000", email: desk@our-firm.example }',
    );
    edit(
      join(firm(), 'firm.yaml'),
      'aliases:\n  entries: {}',
      'aliases:\n  entries: { systems/combi-two-wire: [zweidraht] }',
    );
    edit(
      join(firm(), 'firm.yaml'),
      'aliases:',
      'features: { boiler aloft: { under: Where the boiler is, aliases: [dachtherme] } }\naliases:',
    );
    edit(join(firm(), 'content/systems/our-combi.mdx'), 'features: []', 'features: [boiler aloft]');
    const before = readFileSync(join(firm(), 'content/systems/our-combi.mdx'), 'utf8');
    edit(join(firm(), 'wiring.csv'), 'B1.COM', 'B1.COMM');
    const refused = run(importTable!);
    expect(refused.status).toBe(1);
    expect(refused.said).toContain(
      'line 8, to: B1 has no terminal “COMM”\n  found    B1.COMM\n  allowed  COM, NO, E\n  did you mean B1.COM?',
    );
    expect(readFileSync(join(firm(), 'content/systems/our-combi.mdx'), 'utf8')).toBe(before);
    edit(join(firm(), 'wiring.csv'), 'B1.COMM', 'B1.COM');
    expect(run(importTable!)).toMatchObject({ status: 0 });
  });

  test('breaks an entry, reads what is wrong, and mends it', () => {
    const file = join(firm(), 'content/systems/our-combi.mdx');
    edit(file, 'length: 18', 'lenght: 18');
    const { status, said } = run(check!);
    expect(status).toBe(1);
    expect(said).toMatch(/our-firm\/content\/systems\/our-combi\.mdx:\d+:5 {2}key-unknown/);
    expect(said).toContain('did you mean length?');
    edit(file, 'lenght: 18', 'length: 18');
    expect(run(check!).said).toMatch(/\d+ entries in order/);
  });

  test('builds it under a path, and reads it with no signal', async () => {
    const [before, firmBefore] = [stateOf(copy), stateOf(firm())];
    const built = run(build!);
    expect([built.status, built.said]).toEqual([0, built.said]);
    expect(stateOf(copy)).toEqual(before);
    expect(stateOf(firm())).toEqual(firmBefore);
    const site = join(work, 'our-site');
    for (const path of pagesOf(readManifest(site))) {
      const rooted = builtPage(path, site).matchAll(/\s(?:href|src|action)="(\/[^"]*)"/g);
      const astray = [...rooted].map(([, to]) => to).filter((to) => !to?.startsWith('/ours/'));
      expect([path, astray]).toEqual([path, []]);
    }
    const { address, child } = await serving(serveSite!);
    const { page, complaints, close } = await openTab(tests.browser);
    try {
      expect(new URL(address).pathname).toBe('/ours/');
      await page.goto(address);
      expect(await page.title()).toBe('Our Firm');
      await waitUntilSaved(page);
      process.kill(-child.pid!);
      await page.goto(`${address}systems/our-combi/`);
      expect(await page.locator('h1').textContent()).toBe('Our combi');
      expect(await page.locator('.standing').textContent()).toBe(
        'Written by Our Firm. Draft: nobody has reviewed this page as it stands.',
      );
      // It is read before anything is done by the page.
      const topOf = async (place: string) => (await page.locator(place).first().boundingBox())!.y;
      expect(await topOf('.standing')).toBeLessThan(await topOf('.hub-ways'));
      // So do the pages of its parts, on the line of the way up.
      await page.setViewportSize({ width: 360, height: 740 });
      const sequence = await page
        .locator('#sequence a[href*="/sequences/"]')
        .first()
        .getAttribute('href');
      const [, ofSequence = ''] = sequence!.split('/systems/our-combi/');
      expect(ofSequence).toContain('sequences/');
      for (const part of [...PARTS_OF_A_DRAFT, ofSequence]) {
        await page.goto(`${address}systems/our-combi/${part}`);
        const mark = page.locator('main .draft-mark');
        expect([part, await mark.allTextContents()]).toEqual([part, ['Draft: not reviewed']]);
        const head = (await page.locator('main h1').first().boundingBox())!.y;
        const marked = (await mark.boundingBox())!;
        expect(marked.y + marked.height).toBeLessThan(head);
        await mark.evaluate((one) => one.remove());
        const without = (await page.locator('main h1').first().boundingBox())!.y;
        expect([part, head - without < LINE]).toEqual([part, true]);
      }
      await page.goto(`${address}systems/combi-two-wire/wiring/`);
      expect(await page.locator('.draft-mark').count()).toBe(0);
      await page.goto(`${address}systems/our-combi/wiring/`);
      expect(await page.locator('#cable-W1').textContent()).toContain('18 m');
      await page.goto(`${address}search/?q=zweidraht`);
      await page
        .getByRole('link', { name: 'Combi boiler with two-wire room stat' })
        .first()
        .waitFor();
      await page.goto(`${address}search/?q=dachtherme`);
      await page.getByRole('link', { name: 'Our combi' }).first().waitFor();
      await page.goto(`${address}systems/`);
      const shown = page.locator('.system-entry:visible strong');
      expect(await shown.allTextContents()).toHaveLength(2);
      await page.locator('.more-facets > summary').click();
      await page
        .locator('fieldset', { hasText: 'Where the boiler is' })
        .locator('label', { hasText: 'Boiler aloft' })
        .click();
      expect(await shown.allTextContents()).toEqual(['Our combi']);
      await page.goto(`${address}job/?system=our-combi`);
      await page.getByText('Our combi').first().waitFor();
      await page.goto(`${address}reviewed/`);
      expect(await page.locator('main').textContent()).toContain('Nobody is named');
      expect(complaints).toEqual({ console: [], foreign: [] });
    } finally {
      await close();
    }
  });

  test('has it reviewed, without which it is not published', () => {
    const [plain] = build!.split(' #');
    const refused = run(`${plain} --publish`);
    expect(refused.status).toBe(1);
    expect(refused.said).toContain('our-combi.mdx:1:1  review-missing');
    // The system was begun from another, and still speaks of that one.
    expect(refused.said).toContain('our-combi.mdx:4:10  warning: text-copied');
    edit(
      join(firm(), 'content/systems/our-combi.mdx'),
      /^summary: .*$/m,
      'summary: A room stat closes the boiler’s call loop, wired as we wire it.',
    );
    expect(run(review!)).toMatchObject({ status: 1 });
    const reviewed = run(`${review} --yes`);
    expect([reviewed.status, reviewed.said]).toEqual([0, reviewed.said]);
    expect(run(`${plain} --publish`).said).not.toContain('our-combi.mdx');
  });

  test('binds its own pages, into its own site', async () => {
    const { status, said } = run(`${pack} --only our-combi`);
    expect([status, said]).toEqual([0, said]);
    expect(said).toMatch(/^Binding 1 page of Our Firm, version /m);
    const pdf = await PDFDocument.load(readFileSync(join(work, 'our-site/pack/reference.pdf')));
    const pages = textOfPages(Buffer.from(await pdf.save({ useObjectStreams: false })));
    const { version } = readManifest(join(work, 'our-site'));
    // Cover, contents, and the system's sheet.
    expect(pages.length).toBeGreaterThan(2);
    for (const text of pages) {
      expect(text).toContain('Our Firm, 01632 960000');
      expect(text).toContain(`Version ${version}, built`);
    }
    expect(pages[0]).toContain('desk@our-firm.example');
    // Where the site is served, as firm.yaml says: on the cover and in the labels' codes.
    expect(pages[0]).toContain('The newest version is at https://host.example/ours/');
    expect(said).toContain('labels.pdf: ');
    const labels = readFileSync(join(work, 'our-site/labels/index.html'), 'utf8');
    expect(labels).toContain('https://host.example/ours/systems/our-combi/');
    expect(labels).not.toContain('data-path');
    const astray = run(`npm run pack -- --from ../our-site --out ../our-site`);
    expect(astray.said).toContain('--out ../our-site is a built site');
  });
});

describe('a firm whose every text is hostile', () => {
  const out = () => join(work, 'hostile-site');

  beforeAll(() => {
    const { files, places } = hostileFirm();
    expect(places).toBeGreaterThan(30);
    const folder = join(work, 'hostile');
    for (const [file, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, file)), { recursive: true });
      writeFileSync(join(folder, file), text);
    }
    const [before, beside] = [stateOf(copy), readdirSync(work).toSorted()];
    const env = { PROVELINE_CONTENT: 'tests/fixtures/entries/valid' };
    const { status, said } = run('npm run build -- --firm ../hostile --out ../hostile-site', env);
    expect([status, said]).toEqual([0, said]);
    expect(stateOf(copy)).toEqual(before);
    expect(readdirSync(work).toSorted()).toEqual([...beside, 'hostile-site'].toSorted());
  });

  test('has its name, its number and the version on every cupboard label', async () => {
    const { page, close } = await openTab(tests.browser, { serviceWorkers: 'block' });
    const server = await serve({ root: out(), port: 0, base: '/bench/' });
    await page.goto(`${server.address}labels/`);
    await page.locator('.cupboard-label .built.told').last().waitFor({ state: 'attached' });
    const { version } = readManifest(out());
    const labels = page.locator('.cupboard-label');
    for (const label of await labels.all()) {
      const text = await label.textContent();
      expect(text).toContain('owned=9');
      expect(text).toContain(`${version}, built`);
    }
    expect(await labels.count()).toBeGreaterThan(0);
    await close();
    await server.stop();
  });

  test('has its policy on every page', () => {
    const pages = pagesOf(readManifest(out()));
    expect(pages.length).toBeGreaterThan(15);
    for (const path of pages)
      expect([path, builtPage(path, out())]).toEqual([
        path,
        expect.stringContaining("default-src 'none'; script-src 'self' 'wasm-unsafe-eval'"),
      ]);
  });

  test('runs nothing of it in a browser, on any page or in search', async () => {
    const server = await serve({ root: out(), port: 0, base: '/bench/' });
    const { page, complaints, close } = await openTab(tests.browser, { serviceWorkers: 'block' });
    const dialogs: string[] = [];
    page.on('dialog', (dialog) => {
      dialogs.push(dialog.message());
      void dialog.dismiss();
    });
    const owned = () =>
      page.evaluate(
        (early) => [
          'owned' in globalThis,
          document.querySelectorAll(
            'iframe, [onload], [onerror], [onclick], body script:not([src], [type="application/json"])',
          ).length,
          [...document.links].filter(({ protocol }) => protocol === 'javascript:').length,
          // Of scripts inside a page only the site's own, word for word, and data, whole to its end.
          [...document.scripts].filter(({ src, text, type }) =>
            type === 'application/json'
              ? JSON.parse(text) === null
              : text !== early && !src.startsWith(`${location.origin}/bench/_astro/`),
          ).length,
        ],
        KEPT_COUNTS,
      );
    try {
      const addresses = [
        ...pagesOf(readManifest(out())),
        'search/?q=owned',
        'search/?q=%3Cscript%3E',
        'job/?system=our-bench',
      ];
      for (const path of addresses) {
        await page.goto(`${server.address}${path}`, { waitUntil: 'load' });
        if (path.includes('?')) await page.waitForTimeout(600);
        expect([path, ...(await owned())]).toEqual([path, false, 0, 0, 0]);
      }
      await page.goto(
        `${server.address}firm/${readdirSync(join(out(), 'firm')).find((name) => name.startsWith('logo-'))}`,
      );
      expect(dialogs).toEqual([]);
      const said = complaints.console.filter((line) => !line.startsWith('Service Worker regist'));
      expect([said, complaints.foreign]).toEqual([[], []]);
    } finally {
      await close();
      await server.stop();
    }
  });
});
