import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { writeFirm } from '../../src/cli/new-firm.ts';
import { ownVersion } from '../../src/folder/index.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'firm-package-'));
});
afterEach(() => rmSync(folder, { recursive: true }));
const packageFile = () => JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));

test('a firm’s folder has Proveline as its one dependency, and its commands by their names', () => {
  const said = writeFirm(folder, 'A. Firm & Sons', true);
  expect(said).toContain('npm install');
  expect(packageFile()).toMatchObject({
    name: 'a-firm-sons',
    private: true,
    dependencies: { proveline: ownVersion() },
    scripts: { check: 'proveline check', upgrade: 'proveline upgrade' },
    allowScripts: { node: true, esbuild: true },
  });
  // Every command that is spoken of as npm run NAME has a script of that name.
  const { scripts } = JSON.parse(readFileSync('package.json', 'utf8'));
  const own = Object.keys(scripts).filter((name) =>
    / src\/cli\/(?!fonts|test)/.test(scripts[name]),
  );
  expect(Object.keys(packageFile().scripts).toSorted()).toEqual(own.toSorted());
  expect(readFileSync(join(folder, '.gitignore'), 'utf8')).toBe(
    'node_modules/\n.proveline/\ndist/\n',
  );
  expect(readFileSync(join(folder, 'firm.yaml'), 'utf8')).toContain(`proveline: ${ownVersion()} `);
});

test('what an install left there stays', () => {
  mkdirSync(join(folder, 'node_modules'));
  writeFileSync(
    join(folder, 'package.json'),
    '{"name":"ours","scripts":{"deploy":"rsync"},"dependencies":{"proveline":"^0.1.0"}}',
  );
  writeFileSync(join(folder, '.gitignore'), 'dist/\nsecret\n');
  expect(writeFirm(folder, 'Ours', true)).not.toContain('npm install');
  expect(packageFile()).toMatchObject({
    name: 'ours',
    dependencies: { proveline: '^0.1.0' },
    scripts: { deploy: 'rsync', build: 'proveline build' },
  });
  expect(readFileSync(join(folder, '.gitignore'), 'utf8')).toBe(
    'dist/\nsecret\nnode_modules/\n.proveline/\n',
  );
});

test('a folder that holds anything else is left alone', () => {
  writeFileSync(join(folder, 'letter.txt'), 'Dear Sir');
  expect(() => writeFirm(folder, 'Ours', true)).toThrow('holds files already, as letter.txt');
});

test('a clone’s firm is a folder and no package', () => {
  writeFileSync(join(folder, 'package.json'), '{}');
  expect(() => writeFirm(folder, 'Ours')).toThrow('holds files already, as package.json');
});
