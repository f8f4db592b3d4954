import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { outputFolder } from '../../src/cli/output.ts';
import { checkReference } from '../../src/firm/index.ts';
import { FIXTURE_FIRM } from './fixture-firm.ts';
import { FIXTURE, said } from './memory.ts';
import { sealed } from './sealed.ts';

let work: string;
const make = (name: string, files: Readonly<Record<string, string>>) => {
  const folder = join(work, name);
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(join(folder, file, '..'), { recursive: true });
    writeFileSync(join(folder, file), text);
  }
  return folder;
};
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'firm-'));
  writeFileSync(join(work, 'secret.mdx'), '---\ntitle: Secret\nsummary: Not ours.\n---\n');
});
afterAll(() => rmSync(work, { recursive: true }));

const check = (firm: string) => checkReference({ content: FIXTURE, firm, today: '2026-11-25' });

describe('a firm’s folder on this machine', () => {
  test('is read as one in memory is', () => {
    const { problems, warnings } = check(make('plain', sealed(FIXTURE_FIRM, FIXTURE)));
    expect(said({ problems: [...problems, ...warnings] })).toEqual([]);
  });

  test('has no links that lead out of it, whatever they are', () => {
    const firm = make('linked', { 'firm.yaml': 'name: Linked\nlogo: logo.svg\n' });
    mkdirSync(join(firm, 'content/glossary'), { recursive: true });
    symlinkSync(join(work, 'secret.mdx'), join(firm, 'content/glossary/secret.mdx'));
    symlinkSync(work, join(firm, 'content/systems'));
    symlinkSync(join(work, 'nowhere'), join(firm, 'content/devices'));
    symlinkSync('/dev/zero', join(firm, 'logo.svg'));
    const { problems, entries } = check(firm);
    expect(said({ problems })).toEqual([
      'firm/firm.yaml:2 logo-unfit: it is a link or a special file, not a file of its own',
      'firm/content/devices:1 file-link: this is a link or a special file, not a file or folder of its own',
      'firm/content/glossary/secret.mdx:1 file-link: this is a link or a special file, not a file or folder of its own',
      'firm/content/systems:1 file-link: this is a link or a special file, not a file or folder of its own',
    ]);
    expect(entries.glossary.has('secret')).toBe(false);
  });

  test('has settings of its own, and a content folder of its own', () => {
    const firm = make('borrowed', { 'other.yaml': 'name: Other\n' });
    symlinkSync(join(firm, 'other.yaml'), join(firm, 'firm.yaml'));
    expect(said(check(firm))[0]).toMatch(/^firm\/firm\.yaml:1 file-link/);
    const second = make('borrowing', { 'firm.yaml': 'name: Second\n' });
    symlinkSync(join(work, 'plain/content'), join(second, 'content'));
    expect(said(check(second))[0]).toMatch(/^firm\/content:1 file-link/);
  });
});

describe('the folder that a build empties', () => {
  const kept = () => [join(work, 'project'), join(work, 'project/content'), join(work, 'plain')];
  const into = (folder: string) => () => outputFolder(join(work, folder), kept());

  test('is one that is not there, is empty, or was built before', () => {
    make('project', { 'content/x': '' });
    make('before', { '_astro/x.css': '', 'index.html': '' });
    mkdirSync(join(work, 'empty'));
    for (const folder of ['new/site', 'before', 'empty', 'project/site', 'plain/site'])
      expect(into(folder)()).toMatch(new RegExp(`${folder}$`));
  });

  test('is none that holds anything else', () => {
    make('letters', { 'letter.txt': 'Dear Sir' });
    symlinkSync(join(work, 'plain'), join(work, 'alias'));
    expect(into('project')).toThrow(/holds .*project, and a build empties its folder first/);
    expect(into('plain')).toThrow(/empties its folder first/);
    expect(into('alias')).toThrow(/empties its folder first/);
    expect(into('.')).toThrow(/empties its folder first/);
    expect(into('plain/content/systems/site')).toThrow(/lies among the entries/);
    expect(into('letters')).toThrow(/holds files that no build put there, as letter\.txt/);
  });
});
