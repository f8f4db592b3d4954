import { cpSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  DESK,
  launch,
  openTab,
  PHONE,
  type TestBrowser,
  waitUntilSaved,
} from '../browser/harness.ts';
import { beginJob, turnTo } from '../browser/job-steps.ts';
import { isSound, phone } from '../browser/phone.ts';
import { type Newcomer, ofDay } from './newcomer.ts';

/**
 * A command of README's section on a firm's own folder, as it is typed in a firm's repository:
 * all that is said there holds in it without `--firm`.
 */
function ofFolder(start: string): string {
  const [, section = ''] = readFileSync('README.md', 'utf8').split("\n## A firm's own folder\n");
  const found = [...section.matchAll(/^npm run .*$|`(npm run [^`]*)`/gm)]
    .map(([line, quoted]) => (quoted ?? line).replace(/ +# .*$/, ''))
    .filter((line) => line.startsWith(start));
  expect(found.length, `README says ${start}`).toBeGreaterThan(0);
  return found[0]!.replace(/ --firm (\S+)/, '');
}

/** A command of README's table of commands, as typed in a firm's repository. */
function ofTable(start: string): string {
  const rows = [...readFileSync('README.md', 'utf8').matchAll(/^\| `(npm run [^`]*)`/gm)];
  const found = rows.map(([, command]) => command!).filter((line) => line.startsWith(start));
  expect(found, `one row of README begins ${start}`).toHaveLength(1);
  return found[0]!.replace(/ --firm FOLDER/, '');
}

const SYSTEM = 'our-combi-in-the-loft';
const ENTRY = `content/systems/${SYSTEM}.mdx`;
/** Systems of the reference that the firm of this day meets. */
const MET = ['combi-two-wire', 'combi-wireless'];

/** What a stage of the day came to, as a row of a table. */
interface Stage {
  readonly title: string;
  readonly seconds: number;
}

/**
 * The day of a firm's manager, each command taken out of README: from no folder to a release that
 * phones are told of, made better by what one of them brought back, and built again as it was.
 */
export function managersDay(person: Newcomer): void {
  const stages: Stage[] = [];
  const stage = (title: string, act: () => Promise<void> | void) =>
    test(title, async () => {
      const begun = performance.now();
      await act();
      stages.push({ title, seconds: (performance.now() - begun) / 1000 });
    });
  const built = (path: string, site = 'our-firm/dist') =>
    readFileSync(join(person.work, site, path), 'utf8');
  const field = join(person.work, 'from-the-field');
  /** The command by which somebody reviews an entry, whoever README names. */
  const review = (entry: string, by: string) =>
    ofDay('npx proveline review system')
      .replace('system our-combi', entry)
      .replace('"B. Name"', `"${by}"`);
  const release = (name: string) =>
    ofDay('npx proveline release').replace(/--name \S+/, `--name ${name}`);

  describe('the manager’s day', () => {
    let chromium: TestBrowser;
    let pocket: { context: BrowserContext; said: string[] };
    let page: Page;
    let address = '';
    let stop = () => {};
    const serve = async () => {
      const serving = await person.started(ofDay('npx proveline serve'), /at (http:\S+)/);
      address = serving.found;
      stop = serving.stop;
    };
    beforeAll(async () => {
      chromium = await launch();
      pocket = await phone(chromium, { acceptDownloads: true });
      page = await pocket.context.newPage();
    });
    afterAll(async () => {
      await chromium.close();
      const rows = stages.map(
        ({ title, seconds }) => `${title.padEnd(64)}${seconds.toFixed(1).padStart(7)} s`,
      );
      const sum = stages.reduce((all, { seconds }) => all + seconds, 0);
      console.log(
        [
          'The manager’s day',
          ...rows,
          `${'In all'.padEnd(64)}${sum.toFixed(1).padStart(7)} s`,
        ].join('\n'),
      );
    });

    stage('a new firm, of which a second person reviews everything', () => {
      expect(person.done(ofDay('npx proveline new firm'))).toContain('is the folder of Our Firm');
      // Few visits are needed until the firm's own weigh: the day has one.
      person.edit(
        'firm.yaml',
        'reviews: { overdue: warn }',
        'reviews: { second person: true }\nfield: { prior strength: 1 }',
      );
      person.edit('firm.yaml', /^base: \/ /m, 'base: /reference/ ');
    });

    stage('a stricter rule: one message with three ways out', () => {
      person.done(ofDay('npx proveline new standard'));
      const rule = 'content/standards/volt-drop.mdx';
      person.edit(rule, /most: \d/, 'most: 0.1');
      person.edit(rule, 'at most 5 %', 'at most 0.1 %');
      const said = person.refused(ofDay('npx proveline check'));
      expect(said).toContain('1 problem in 1 file');
      const [first = ''] = said.split('\n\n').filter((one) => one.includes('standard-conflicts'));
      expect(first).toMatch(
        /volt-drop\.mdx:\d+:1 {2}standard-conflicts\n {2}\d+ of the reference’s own systems do not meet this\n/,
      );
      expect(first).toMatch(
        /Three ways: an exception .*\(npx proveline check --exceptions .*; an entry of yours .*; or the system hidden/,
      );
      // The third way for what the firm does not meet, the first for what it does.
      const others = readdirSync('content/systems').flatMap((name) =>
        name.endsWith('.mdx') && !MET.includes(name.slice(0, -4))
          ? [`systems/${name.slice(0, -4)}`]
          : [],
      );
      person.edit('firm.yaml', /^hide: \[\]/m, `hide: [${others.join(', ')}]`);
      expect(person.refused(ofTable('npm run check -- --firm FOLDER --exceptions'))).toMatch(
        /content\/systems\/combi-wireless\.mdx: excepted from volt-drop; say why, and who allows it/,
      );
      const exception = 'content/systems/combi-wireless.mdx';
      person.edit(exception, /why: .*/, 'why: Its flex is the one that comes with it.');
      person.edit(exception, /by: .*/, 'by: B. Name');
      expect(person.done(ofDay('npx proveline check'))).toMatch(/\d+ entries in order, 2 warnings/);
    });

    stage('a new system from the form', async () => {
      expect(readFileSync('README.md', 'utf8')).toMatch(
        /`npm run dev` \|.*at `\/write\/` entries as a form/,
      );
      const dev = await person.started('npm run dev', /as a form: (\S+)/);
      const { page: desk, complaints, close } = await openTab(chromium.browser, { viewport: DESK });
      await desk.goto(dev.found);
      await desk.getByLabel('Begin with a copy of').selectOption('combi-two-wire');
      await desk.getByLabel('Title').fill('Our combi in the loft');
      await desk.getByRole('button', { name: 'Begin' }).click();
      await desk.locator('h1', { hasText: 'Our combi in the loft' }).waitFor();
      await desk
        .getByLabel('summary', { exact: true })
        .fill('A room stat calls the boiler in the loft.');
      await desk.locator('.standing + .group > .add select').selectOption('author');
      await desk.getByLabel('author', { exact: true }).fill('A. Name');
      await desk.locator('.standing', { hasText: 'In order' }).waitFor();
      await desk.getByRole('button', { name: 'Save' }).click();
      await desk.getByRole('status').filter({ hasText: 'Saved in' }).waitFor();
      expect(complaints).toEqual({ console: [], foreign: [] });
      await close();
      dev.stop();
      expect(person.read(ENTRY)).toMatch(/^author: A\. Name$/m);
    });

    stage('a mistake in its wiring, found by the first message', () => {
      // The blue core of the room stat, not sleeved yet, taken for a neutral.
      person.edit(ENTRY, 'ends: [ E1.call return,', 'ends: [ E1.N,');
      const [first = ''] = person
        .refused(ofDay('npx proveline check'))
        .split('\n\n')
        .map((one) => one.replaceAll(/^(?:\d\/\d |Done in ).*\n/gm, ''));
      expect(first).toMatch(
        new RegExp(
          `^${ENTRY.replaceAll('.', '\\.')}:\\d+:\\d+ {2}wiring-differs\n {2}move blue core .* from N to switched live back at the boiler E1, and all \\d+ expectations that differ hold`,
        ),
      );
      person.edit(ENTRY, 'ends: [ E1.N,', 'ends: [ E1.call return,');
    });

    stage('a review refused to the author, and given by another', () => {
      for (const file of ['content/standards/volt-drop.mdx', 'content/systems/combi-wireless.mdx'])
        person.edit(file, '# Nobody has', 'author: A. Name\n# Nobody has');
      expect(person.refused(review(`system ${SYSTEM}`, 'A. Name'))).toContain(
        'A. Name wrote this entry: a second person reviews it.',
      );
      expect(person.refused(ofDay('npx proveline build'))).toContain('review-missing');
      expect(person.done(ofDay('npx proveline review standard'))).toContain('reviewed by B. Name');
      for (const entry of ['system combi-wireless', `system ${SYSTEM}`])
        expect(person.done(review(entry, 'B. Name'))).toContain('reviewed by B. Name');
    });

    stage('a release, and a phone that saves it', async () => {
      expect(person.done(release('2026.11'))).toContain('2026.11 is the first release');
      cpSync(join(person.firm, 'dist'), join(person.work, 'first-site'), { recursive: true });
      await serve();
      await page.goto(address);
      await waitUntilSaved(page);
      await page.goto(`${address}systems/${SYSTEM}/`);
      await page.locator('[data-act="pin"]').click();
    });

    stage('a visit on that phone with no signal, handed over and gathered', async () => {
      stop();
      await page.goto(`${address}job/?system=${SYSTEM}`);
      await beginJob(page);
      await turnTo(page, 'Record');
      await page.fill('#repair-typed', 'New cable to the room stat');
      await page.tap('text=Enter this repair');
      await page.tap('text=Finish the job');
      await page.selectOption('#hand-over-cause', 'cable');
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.tap('.hand-over >> text=Save the file'),
      ]);
      mkdirSync(field);
      cpSync(await download.path(), join(field, download.suggestedFilename()));
      const said = person.done(ofDay('npx proveline gather'));
      expect(said).toContain('0 reports, 1 visit\n');
      expect(said).toMatch(/Cable damaged +1 /);
      expect(person.read('field/counts.json')).toContain(`"system":"${SYSTEM}"`);
    });

    stage('a second release: weights and a sequence moved by that visit', () => {
      person.edit(
        ENTRY,
        'lock off and prove dead before',
        'lock off, prove dead and keep the key before',
      );
      person.done(review(`system ${SYSTEM}`, 'B. Name'));
      const said = person.done(
        `${release('2026.12')} --reason "A spur was switched on by a tenant"`,
      );
      expect(said).toMatch(/Dangerous if missed:\n {2}- Our combi in the loft: Caution reworded/);
      expect(said).toMatch(/Test sequence from “[^”]+” begins with: now .*, was /);
      const page = built('about/field/index.html');
      expect(page).toMatch(/1\s+visit of Our Firm/);
      expect(Number(/Of \d+ sequences from a complaint,\s+(\d+)/.exec(page)?.[1])).toBeGreaterThan(
        0,
      );
      const [was, now] = ['first-site', 'our-firm/dist'].map(
        (site) => JSON.parse(built(`data/systems/${SYSTEM}.json`, site)) as { sequences: unknown },
      );
      expect(now!.sequences).not.toEqual(was!.sequences);
    });

    stage('that phone updated, with the notes of what changed since', async () => {
      await serve();
      await page.goto(address);
      await page.locator('button', { hasText: 'Check for a newer version' }).click();
      await page.locator('#offline-offer', { hasText: /^Release 2026\.12, dated / }).waitFor();
      await page.locator('#offline-offer button').click();
      await page.waitForFunction(() =>
        document.querySelector('.built')?.textContent?.includes('2026.12'),
      );
      stop();
      await page.goto(address);
      await page.locator('.since h2', { hasText: 'Since you last looked' }).waitFor();
      const danger = page.locator('.since li[data-rank="danger"]').first();
      expect(await danger.textContent()).toMatch(
        /Caution reworded.*Why: A spur was switched on by a tenant/,
      );
      await page.goto(`${address}changes/`);
      await page.locator('.since details[open] li').first().waitFor();
      expect(await page.locator('.since details').textContent()).toContain('Test sequence');
      // The figures of its one visit: the first screen answers, the tables are folded.
      await page.goto(`${address}about/field/`);
      const short = page.locator('.in-short li');
      expect(await short.allTextContents()).toEqual([
        expect.stringMatching(/^\s*Cable damaged: \d+\.\d\s%, by the reference \d+\.\d\s%\s*$/),
        expect.stringMatching(
          /^\s*[1-9]\d* of \d+ sequences\s+from a complaint begins? with another act/,
        ),
        expect.stringMatching(/^\s*Visits were foretold /),
      ]);
      const first = (await short.nth(1).boundingBox())!;
      expect(first.y + first.height).toBeLessThan(PHONE.height);
      expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThan(4000);
      await isSound(page);
      for (const fold of await page.locator('article details > summary').all()) await fold.tap();
      expect(await page.locator('article table:visible').count()).toBe(3);
      await isSound(page);
      expect(pocket.said).toEqual([]);
    });

    stage('the first release built again, byte for byte', () => {
      const again = ofFolder('npm run build -- --firm ../our-firm --release');
      expect(person.done(again)).toMatch(
        /Release 2026\.11: \d+ files of open data, byte for byte as released/,
      );
      const files = (site: string) =>
        readdirSync(join(person.work, site), { recursive: true, withFileTypes: true })
          .filter((entry) => entry.isFile())
          .map(({ parentPath, name }) =>
            join(parentPath, name).slice(join(person.work, site).length),
          )
          .toSorted();
      expect(files('as-it-was')).toEqual(files('first-site'));
      const differing = files('as-it-was').filter(
        (path) =>
          !readFileSync(join(person.work, 'as-it-was', path)).equals(
            readFileSync(join(person.work, 'first-site', path)),
          ),
      );
      expect(differing).toEqual([]);
    });
  });
}
