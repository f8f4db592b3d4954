import { spawnSync } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { serve } from '../../src/cli/serve.ts';
import { FIXTURE_FIRM } from '../firm/fixture-firm.ts';
import { FIXTURE } from '../firm/memory.ts';
import { sealed } from '../firm/sealed.ts';
import { violations } from './accessibility.ts';
import { builtPage, launch, openTab, type TestBrowser, waitUntilSaved } from './harness.ts';

const PROJECT = fileURLToPath(new URL('../../', import.meta.url));
/** What a copy of the project holds; packages are linked, since every copy has the same. */
const COPIED =
  'content public schemas src tests/fixtures astro.config.ts package.json tsconfig.json';
/** Least height of what a finger hits, WCAG 2.2 success criterion 2.5.5. */
const LEAST_TOUCH = 44;
const BASE = '/bench/';

let work: string;
let chromium: TestBrowser;
const at = (name: string) => join(work, name);

/** The surroundings of a reader, without what this runner of tests sets for itself. */
const { NODE_ENV, MODE, DEV, PROD, SSR, VITEST, SITE_FOLDER, ...surroundings } = process.env;

function run(command: string) {
  const { status, stdout, stderr } = spawnSync('sh', ['-c', command], {
    cwd: at('proveline'),
    encoding: 'utf8',
    env: { ...surroundings, PROVELINE_CONTENT: 'tests/fixtures/entries/valid' },
  });
  return { status, said: `${stdout}${stderr}` };
}

/** The firm over the bench, reviewed as it stands, with some texts replaced. */
function writeFirm(edits: readonly (readonly [file: string, from: string, to: string])[]): void {
  const files = { ...FIXTURE_FIRM };
  for (const [file, from, to] of edits) {
    expect(files[file]).toContain(from);
    files[file] = files[file]!.replace(from, to);
  }
  for (const [file, text] of Object.entries(sealed(files, FIXTURE))) {
    mkdirSync(dirname(join(at('firm'), file)), { recursive: true });
    writeFileSync(join(at('firm'), file), text);
  }
}

const EDITS = [
  ['content/systems/our-bench.mdx', 'cautions: [Hot.]', 'cautions: [Hot for an hour.]'],
  ['content/procedures/make-dead.mdx', 'take the fuse out and', 'take the fuse with you and'],
  ['content/systems/our-bench.mdx', 'length: 12', 'length: 13'],
  ['content/glossary/rag.mdx', 'Wash it.', 'Burn it.'],
] as const;
const RELEASE = 'npm run release -- --firm ../firm --by "A. Name"';

/** Files of a site's open data with what they hold. */
const dataOf = (site: string) =>
  Object.fromEntries(
    readdirSync(join(at(site), 'data'), { recursive: true, encoding: 'utf8' })
      .filter((path) => path.endsWith('.json'))
      .map((path) => [path, readFileSync(join(at(site), 'data', path), 'utf8')]),
  );

beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), 'releases-'));
  for (const path of COPIED.split(' '))
    cpSync(join(PROJECT, path), join(at('proveline'), path), { recursive: true });
  symlinkSync(join(PROJECT, 'node_modules'), join(at('proveline'), 'node_modules'));
  chromium = await launch();
});
afterAll(async () => {
  await chromium.close();
  rmSync(work, { recursive: true });
});

describe('a firm’s releases', () => {
  test('begin with one that nothing is compared with', () => {
    writeFirm([]);
    const { status, said } = run(`${RELEASE} --name 2026.11 --out ../site`);
    expect([status, said]).toEqual([0, said]);
    expect(said).toContain('2026.11 is the first release: the next one is compared with it');
    expect(JSON.parse(dataOf('site')['releases.json']!).releases).toMatchObject([
      { name: '2026.11', by: 'A. Name', after: null, changes: [] },
    ]);
    cpSync(at('site'), at('first-site'), { recursive: true });
  });

  test('are refused where nothing changed, for drafts, without a reason, under a name that is taken', () => {
    expect(run(`${RELEASE} --name 2026.12`).said).toContain(
      'Nothing that a reader acts on has changed since 2026.11: there is nothing to release',
    );
    expect(run(`${RELEASE} --name "../x"`).said).toContain('“../x” cannot be a release’s name');
    expect(run(`${RELEASE} --name 2026.11`)).toMatchObject({
      status: 1,
      said: expect.stringMatching(
        /There is a release 2026\.11 already, of [-\d]+ by A\. Name: a release is never written over/,
      ),
    });
    writeFirm(EDITS);
    const rag = join(at('firm'), 'content/glossary/rag.mdx');
    const reviewed = readFileSync(rag, 'utf8');
    writeFileSync(rag, reviewed.replace('Burn it.', 'Burn it soon.'));
    expect(run(`${RELEASE} --name 2026.12`)).toMatchObject({
      status: 1,
      said: expect.stringContaining('content/glossary/rag.mdx'),
    });
    writeFileSync(rag, reviewed);
    const unreasoned = run(`${RELEASE} --name 2026.12`);
    expect(unreasoned.status).toBe(1);
    expect(unreasoned.said).toMatch(
      /Dangerous if missed:\n {2}- .*\n {2}- .*\n\nChanges what you do or read:/,
    );
    expect(unreasoned.said).toContain('Say --reason: ');
    expect(run(`${RELEASE} --name 2026.12 --reason " "`).said).toContain('--reason is empty');
    expect(readdirSync(join(at('firm'), 'releases'))).toEqual(['2026.11.json']);
  });

  test('say what changed since the one before, and stay through every nightly build', () => {
    const released = run(`${RELEASE} --name 2026.12 --reason "A burnt hand" --out ../site`);
    expect([released.status, released.said]).toEqual([0, released.said]);
    const nightly = run('npm run build -- --firm ../firm --out ../site');
    expect([nightly.status, nightly.said]).toEqual([0, nightly.said]);
    const [second, first, ...others] = JSON.parse(dataOf('site')['releases.json']!).releases;
    expect([first.name, others]).toEqual(['2026.11', []]);
    expect(second.changes.map((line: Record<string, unknown>) => [line.rank, line.reason])).toEqual(
      [
        ['danger', 'A burnt hand'],
        ['danger', 'A burnt hand'],
        ['act', null],
        ['know', null],
      ],
    );
    const page = builtPage('changes/', at('site'));
    expect(page.indexOf('Release 2026.12')).toBeLessThan(page.indexOf('Release 2026.11'));
    const between = run('npm run changes -- --firm ../firm 2026.11 2026.12');
    expect(between.said).toContain('Caution reworded: now “Hot for an hour.”, was “Hot.”');
    expect(run('npm run changes -- --firm ../firm 2026.10').said).toContain(
      'There is no release 2026.10 (releases/2026.10.json). Releases: 2026.11, 2026.12',
    );
  });

  test('are built again byte for byte, from their own file alone', () => {
    const again = run('npm run build -- --firm ../firm --release 2026.11 --out ../again');
    expect([again.status, again.said]).toEqual([0, again.said]);
    expect(again.said).toMatch(
      /Release 2026\.11: \d+ files of open data, byte for byte as released/,
    );
    expect(dataOf('again')).toEqual(dataOf('first-site'));
    expect(dataOf('again')['entries.json']).not.toEqual(dataOf('site')['entries.json']);
  });

  test('stop a build where one was cut short', () => {
    const file = join(at('firm'), 'releases/2026.12.json');
    const whole = readFileSync(file, 'utf8');
    writeFileSync(file, whole.slice(0, 400));
    const { status, said } = run('npm run build -- --firm ../firm --out ../again');
    expect(status).toBe(1);
    expect(said).toMatch(/2026\.12\.json: it is not JSON, so it was cut short or edited/);
    writeFileSync(file, whole);
  });
});

describe('since you last looked', () => {
  const isShown = (page: Awaited<ReturnType<typeof openTab>>['page']) =>
    page.locator('.since').isVisible();
  /** A served site that can be made the later one. */
  async function servedFirst() {
    rmSync(at('served'), { recursive: true, force: true });
    cpSync(at('first-site'), at('served'), { recursive: true });
    const server = await serve({ root: at('served'), port: 0, base: BASE });
    return {
      ...server,
      release() {
        rmSync(at('served'), { recursive: true });
        cpSync(at('site'), at('served'), { recursive: true });
      },
    };
  }

  test('an update names its release; what is dangerous stays, with no signal, until it is read', async () => {
    const server = await servedFirst();
    const { page, complaints, close } = await openTab(chromium.browser);
    await page.goto(server.address);
    await waitUntilSaved(page);
    expect(await isShown(page)).toBe(false);
    await page.goto(`${server.address}systems/our-bench/`);
    await page.locator('[data-act="pin"]').click();
    server.release();
    await page.locator('button', { hasText: 'Check for a newer version' }).click();
    await page.locator('#offline-offer', { hasText: /^Release 2026\.12, dated / }).waitFor();
    await page.locator('#offline-offer button').click();
    await page.waitForFunction(() =>
      document.querySelector('.built')?.textContent?.includes('2026.12'),
    );
    await server.stop();

    await page.goto(server.address);
    const lines = page.locator('.since li[data-rank="danger"]');
    await lines.first().waitFor();
    expect(await violations(page)).toEqual([]);
    // The reader's own system comes first.
    expect(await page.locator('.since h3:visible').allTextContents()).toEqual([
      'Our bench',
      'Wherever you work',
    ]);
    expect(await lines.allTextContents()).toEqual([
      expect.stringContaining('Caution reworded: now “Hot for an hour.”, was “Hot.”'),
      expect.stringContaining('take the fuse with you'),
    ]);
    const button = page.locator('.since li button').first();
    expect((await button.boundingBox())!.height).toBeGreaterThanOrEqual(LEAST_TOUCH);
    await button.click();
    expect(await lines.count()).toBe(1);

    // Looking at the page of changes is looking; what is dangerous waits all the same.
    await page.goto(`${server.address}changes/`);
    await page.locator('.since details[open] li').first().waitFor();
    expect(await page.locator('.since details li').count()).toBe(2);
    expect(await violations(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth > innerWidth)).toBe(
      false,
    );
    await page.goto(server.address);
    await lines.first().waitFor();
    expect(await page.locator('.since details').count()).toBe(0);
    await page.locator('.since button', { hasText: 'I have read this' }).click();
    expect(await isShown(page)).toBe(false);
    await page.reload();
    await page.waitForFunction(() => document.querySelector('.built.told'));
    expect(await isShown(page)).toBe(false);
    expect(await page.evaluate(() => localStorage.getItem('proveline.releases'))).toBe(
      '{"from":"2026.12","looked":"2026.12","read":[]}',
    );
    const said = complaints.console.filter(
      (one) => !/fetching the script|ERR_CONNECTION_REFUSED/.test(one),
    );
    expect([said, complaints.foreign]).toEqual([[], []]);
    await close();
  });

  test('is nothing to whoever reads the first time', async () => {
    const server = await serve({ root: at('site'), port: 0, base: BASE });
    const { page, close } = await openTab(chromium.browser, { serviceWorkers: 'block' });
    for (const path of ['', 'changes/', '']) {
      await page.goto(server.address + path);
      await page.waitForFunction(() => localStorage.getItem('proveline.releases') !== null);
      expect(await isShown(page)).toBe(false);
    }
    await close();
    await server.stop();
  });

  test('does no harm where storage is refused', async () => {
    const server = await serve({ root: at('site'), port: 0, base: BASE });
    const { page, complaints, close } = await openTab(chromium.browser, {
      serviceWorkers: 'block',
    });
    await page.addInitScript(() => {
      Object.defineProperty(window, 'localStorage', {
        get() {
          throw new DOMException('refused', 'SecurityError');
        },
      });
    });
    for (const path of ['', 'changes/']) {
      await page.goto(server.address + path);
      await page.waitForFunction(() => document.querySelector('.built.told'));
      expect(await isShown(page)).toBe(false);
    }
    expect(complaints.console.filter((one) => !one.startsWith('Service Worker regist'))).toEqual(
      [],
    );
    await close();
    await server.stop();
  });

  test('is not spoken of where no release was made', () => {
    expect(builtPage('')).not.toContain('data-latest');
    expect(builtPage('changes/')).not.toContain('data-latest');
  });
});
