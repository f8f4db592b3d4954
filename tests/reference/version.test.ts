import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Entries } from '../../src/entries/index.ts';
import { loadEntries } from '../../src/entries/index.ts';
import { keptIn } from '../../src/folder/kept.ts';
import { siteCode, versionOf } from '../../src/reference/version.ts';

let root: string;
let before: string;
beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'version-'));
  for (const part of ['src', 'schemas', 'public', 'astro.config.ts', 'package-lock.json'])
    cpSync(part, join(root, part), { recursive: true });
  before = await siteCode(root);
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** The code's hash while a text in one of the sources is another. */
async function codeWith(file: string, from: string | RegExp, to: string): Promise<string> {
  const path = join(root, file);
  const text = readFileSync(path, 'utf8');
  const edited = text.replace(from, to);
  expect(edited, `${file} says ${from}`).not.toBe(text);
  writeFileSync(path, edited);
  try {
    return await siteCode(root);
  } finally {
    writeFileSync(path, text);
  }
}

describe('the code that a site is made by', () => {
  it('is the same wherever it lies', async () => {
    expect(await siteCode()).toBe(before);
  });

  it.each([
    [
      'a constant of the engine',
      'src/circuit/constants.ts',
      'CLOSED_CONTACT_OHMS = 0.05',
      'CLOSED_CONTACT_OHMS = 0.06',
    ],
    ['a published value', 'src/published/capacitance.ts', '100e-12', '101e-12'],
    [
      'a constant that only a page’s template uses',
      'src/layouts/Page.astro',
      "'bar-search'",
      "'bar-of-search'",
    ],
    ['a word of a page', 'src/pages/index.astro', '</Page>', '<p>More.</p></Page>'],
    ['what runs in the browser', 'src/job/worker.ts', /$/, "\nconsole.log('more');\n"],
    ['a style', 'src/styles/index.css', /$/, '\nbody { color: red }\n'],
    ['a schema', 'schemas/names.ts', /$/, '\nexport const more = 1;\n'],
    ['a setting of the page maker', 'astro.config.ts', "format: 'directory'", "format: 'file'"],
    [
      'a package that pages are made with',
      'package-lock.json',
      /("node_modules\/astro": \{\s*"version": ")/,
      '$19.',
    ],
  ])('changes with %s', async (_, file, from, to) => {
    expect(await codeWith(file, from, to)).not.toBe(before);
  });

  it.each([
    ['a comment in code', 'src/circuit/constants.ts', /^/, '/* Said anew. */\n'],
    ['a comment at the head of a page', 'src/pages/index.astro', '---\n', '---\n// Said anew.\n'],
    [
      'a comment in a page’s template',
      'src/pages/index.astro',
      '</Page>',
      '{/* Said anew. */}</Page>',
    ],
    ['a comment in a style', 'src/styles/index.css', /^/, '/* Said anew. */\n'],
    ['a type', 'src/circuit/constants.ts', /$/, 'export type More = string;\n'],
    ['blank lines', 'src/circuit/constants.ts', /\n/g, '\n\n'],
    ['a command’s words', 'src/cli/start.ts', 'builds the site', 'makes the site'],
    [
      'a tool of the tests',
      'package-lock.json',
      /("node_modules\/vitest": \{\s*"version": ")/,
      '$19.',
    ],
  ])('stays with %s', async (_, file, from, to) => {
    expect(await codeWith(file, from, to)).toBe(before);
  });

  it('is read off what is kept where nothing changed, and not where something did', async () => {
    const kept = keptIn(join(root, 'kept'));
    expect(await siteCode(root, kept)).toBe(before);
    expect(await siteCode(root, kept)).toBe(before);
    writeFileSync(join(root, 'public/more.txt'), 'more');
    expect(await siteCode(root, kept)).not.toBe(before);
    rmSync(join(root, 'public/more.txt'));
  });
});

describe('the version of a reference', () => {
  const { entries } = loadEntries('content');
  const version = versionOf(entries, undefined, 'solved', 'code');
  const edited = (kind: keyof Entries, edit: (entry: { data: object; body: string }) => object) => {
    const [[id, entry], ...rest] = [...entries[kind]] as [[string, never], ...[string, never][]];
    return versionOf(
      { ...entries, [kind]: new Map([[id, edit(entry)], ...rest]) },
      undefined,
      'solved',
      'code',
    );
  };
  const kinds = Object.keys(entries) as (keyof Entries)[];

  it.each(kinds)('changes with a word of a frontmatter or of prose in %s', (kind) => {
    const words = edited(kind, (e) => ({ ...e, data: { ...e.data, title: 'Other' } }));
    const prose = edited(kind, (e) => ({ ...e, body: `${e.body} More.` }));
    expect(new Set([version, words, prose]).size).toBe(3);
  });

  it('changes with the code and the solved sequences, and not with a rebuild', () => {
    expect(versionOf(entries, undefined, 'solved better', 'code')).not.toBe(version);
    expect(versionOf(entries, undefined, 'solved', 'other')).not.toBe(version);
    expect(versionOf(loadEntries('content').entries, undefined, 'solved', 'code')).toBe(version);
  });
});
