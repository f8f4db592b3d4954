import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { packFolder } from '../../src/cli/output.ts';
import { readSite } from '../../src/publish/built-site.ts';

let work: string;
const write = (file: string, text: string) => {
  mkdirSync(dirname(join(work, file)), { recursive: true });
  writeFileSync(join(work, file), text);
};
const HOME = '<!doctype html><body class="bar" data-base="/field/" data-title="Home"></body>';
const index = (name: string) =>
  JSON.stringify({ reference: { name, version: '3.1', date: '2026-02-03' }, systems: [] });
const PACKS = JSON.stringify({
  packs: [
    { files: ['index.html', 'systems/a/index.html', 'icon.svg', '404.html'] },
    { files: ['glossary/b/index.html'] },
  ],
});
const site = (folder: string, name: string) => {
  write(`${folder}/index.html`, HOME);
  write(`${folder}/data/index.json`, index(name));
  write(`${folder}/offline/manifest.json`, PACKS);
  write(`${folder}/version.json`, '{"version":"3.1","date":"2026-02-03"}');
};
/** What is said, with the folder of this run left out. */
const said = (text: unknown) => String(text).replaceAll(work, '…');
const refusal = (folder: string) =>
  readSite(join(work, folder)).then(
    () => 'taken',
    (error: Error) => said(error.message),
  );

beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'site-'));
  site('ours', 'Our Firm');
  site('reference', 'Proveline');
  write('our-firm/firm.yaml', 'name: Our Firm\n');
});
afterAll(() => rmSync(work, { recursive: true }));

describe('a built site', () => {
  test('says whose it is, of which version, for which path, and which pages it holds', async () => {
    expect(await readSite(join(work, 'ours'))).toEqual({
      name: 'Our Firm',
      version: '3.1',
      date: '2026-02-03',
      base: '/field/',
      pages: ['', 'systems/a/', 'glossary/b/'],
    });
    site('released', 'Our Firm');
    write('released/version.json', '{"version":"3.1","date":"2026-02-03","release":"2026.01"}');
    expect((await readSite(join(work, 'released'))).release).toBe('2026.01');
  });

  test('is refused where it is not what it says', async () => {
    mkdirSync(join(work, 'empty'));
    write('foreign/index.html', '<body>Welcome</body>');
    write('half/index.html', HOME);
    write('half/data/index.json', index('Half'));
    write('damaged/index.html', HOME);
    write('damaged/data/index.json', '{"reference":');
    write('older/index.html', HOME);
    write('older/data/index.json', '{"reference":{"version":"1","date":"2026-01-01"}}');
    write('other/index.html', HOME);
    write('other/data/index.json', index('Other'));
    write('other/offline/manifest.json', '{"packs":[{}]}');
    const folders = ['nowhere', 'empty', 'foreign', 'half', 'damaged', 'older', 'other'];
    expect(await Promise.all(folders.map(refusal))).toEqual([
      '…/nowhere/ is no built site: it holds no index.html. Build one: npm run build -- --out …/nowhere',
      '…/empty/ is no built site: it holds no index.html. Build one: npm run build -- --out …/empty',
      '…/foreign/ is no built site: its index.html is not one that a build writes. Build one: npm run build -- --out …/foreign',
      '…/half/ is no whole site: it holds no offline/manifest.json. Build …/half/ again, or name another with --from',
      '…/damaged/data/index.json is damaged: it is not JSON. Build …/damaged/ again, or name another with --from',
      '…/older/data/index.json is not what a build writes: reference.name is missing or of another kind. Build …/older/ again, or name another with --from',
      '…/other/offline/manifest.json is not what a build writes: packs.0.files is missing or of another kind. Build …/other/ again, or name another with --from',
    ]);
  });
});

describe('the folder that a pack is written into', () => {
  const into = (asked: string | undefined) => {
    try {
      return said(packFolder(asked && join(work, asked), join(work, 'reference')));
    } catch (error) {
      return said((error as Error).message);
    }
  };

  test('is the site’s own pack folder unless asked, or any folder that is not on the web', () => {
    write('papers/letter.txt', 'Dear Sir');
    expect(
      [undefined, 'reference/pack', 'reference/pack/a', 'papers', 'new/papers'].map(into),
    ).toEqual([
      '…/reference/pack',
      '…/reference/pack',
      '…/reference/pack/a',
      '…/papers',
      '…/new/papers',
    ]);
  });

  test('is no site, its own or another’s, no other web folder, and no file', () => {
    write('web/index.html', '<p>Hello');
    const lost =
      'built site, and its next build would empty it. Name a folder elsewhere; to print that site’s own pages: npm run pack -- --from';
    expect(['reference', 'ours', 'ours/pack', 'web', 'papers/letter.txt'].map(into)).toEqual([
      `--out …/reference is a ${lost} …/reference`,
      `--out …/ours is a ${lost} …/ours`,
      `--out …/ours/pack lies in a ${lost} ${said(relative('.', join(work, 'ours')))}`,
      '--out …/web is a web folder: it holds an index.html. Name a folder of its own, as --out ../papers',
      '--out …/papers/letter.txt is a file. Name a folder, as --out ../papers',
    ]);
  });
});

describe('npm run pack', () => {
  const pack = (...args: readonly string[]) => {
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      ['src/cli/pack.ts', ...args.map((arg) => arg.replace('…', work))],
      { encoding: 'utf8' },
    );
    return [status, said(stdout + stderr)];
  };

  test('binds no site but the firm’s when a firm is named', () => {
    const [status, text] = pack('--firm', '…/our-firm', '--from', '…/reference');
    expect(status).toBe(1);
    expect(text).toMatch(
      /^…\/reference\/ holds the pages of Proveline, not of Our Firm\. Name the folder that was built for Our Firm with --from, or build it: npm run build -- --firm \S+our-firm --out \S+our-firm-site\n$/,
    );
  });

  test('says what a folder lacks that is no firm’s', () => {
    const [status, text] = pack('--firm', '…/ours', '--from', '…/ours');
    expect(status).toBe(1);
    expect(text).toMatch(
      /^--firm \S*ours is a built site, not the folder of a firm: it holds offline\/manifest\.json and no firm\.yaml\. Name the folder that it was built from, and this one with --from\n$/,
    );
    expect(pack('--firm', '…/web', '--from', '…/ours')[1]).toContain(
      'this folder has no firm.yaml, so it is no firm’s folder',
    );
  });

  test('says that a firm’s folder is no built site', () => {
    const [status, text] = pack('--from', '…/our-firm');
    expect(status).toBe(1);
    expect(text).toBe(
      '…/our-firm/ is the folder of a firm, not a built site: it holds firm.yaml and no index.html. Build it, and name what is built: npm run build -- --firm …/our-firm --out …/our-firm-site\n',
    );
  });

  test('does not write into a firm’s web folder', () => {
    const [status, text] = pack('--from', '…/reference', '--out', '…/ours');
    expect(status).toBe(1);
    expect(text).toMatch(/^--out …\/ours is a built site/);
  });
});
