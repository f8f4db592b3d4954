import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { KINDS } from '../../src/entries/index.ts';

let work: string;
beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'editor-'));
});
afterAll(() => rmSync(work, { recursive: true }));

/** Schema lines of every file below a folder: the file, and the schema it leads to. */
function schemasNamed(folder: string): [file: string, schema: string][] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(mdx|yaml)$/.test(entry.name))
    .flatMap(({ parentPath, name }): [string, string][] => {
      const file = join(parentPath, name);
      const [, named] =
        /^# yaml-language-server: \$schema=(\S+)$/m.exec(readFileSync(file, 'utf8')) ?? [];
      return named === undefined ? [] : [[file, resolve(dirname(file), named)]];
    });
}

/** What an editor says of a schema: its title, or that it is not there. */
const titleOf = (schema: string): string =>
  existsSync(schema) ? JSON.parse(readFileSync(schema, 'utf8')).title : `${schema} is not there`;

const run = (args: readonly string[], env: Readonly<Record<string, string>> = {}) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['src/cli/new.ts', ...args], {
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });
  expect([status, stdout + stderr]).toEqual([0, stdout + stderr]);
};
const NEW = ['term', '--like', 'fuse', '--title', 'Our word'];

describe('an editor finds the schema that is named', () => {
  test('by the example of a firm’s settings, and by any shipped entry', () => {
    const named = [...schemasNamed('tests/example-firm'), ...schemasNamed('content')];
    expect(named.map(([, schema]) => titleOf(schema))).toContain('Firm');
    expect(named.filter(([, schema]) => !existsSync(schema))).toEqual([]);
  });

  test('by the editor’s own settings, for a firm’s settings and each kind of entry', () => {
    const { 'yaml.schemas': by } = JSON.parse(readFileSync('.vscode/settings.json', 'utf8'));
    const titles = Object.entries(by).map(([schema, files]) => [files, titleOf(schema)]);
    expect(Object.fromEntries(titles)).toEqual({
      '**/firm.yaml': 'Firm',
      ...Object.fromEntries(
        Object.values(KINDS).map(({ folder, title }) => [`content/${folder}/*.mdx`, title]),
      ),
    });
  });

  test('by a new entry of the reference', () => {
    const content = join(work, 'clone/content');
    cpSync('content', content, { recursive: true });
    run(NEW, { PROVELINE_CONTENT: content });
    expect(schemasNamed(content).map(([, schema]) => titleOf(schema))).toEqual(['Glossary term']);
  });

  test('by a new firm’s settings and a new entry of it', () => {
    const firm = join(work, 'firm');
    run(['firm', firm, '--name', 'Ours']);
    run([...NEW, '--firm', firm]);
    const named = schemasNamed(firm);
    expect(named.map(([, schema]) => titleOf(schema)).toSorted()).toEqual([
      'Firm',
      'Glossary term',
    ]);
    expect(named.filter(([, schema]) => !schema.startsWith(firm))).toEqual([]);
  });

  test('by a new entry of a firm’s folder that had no schemas yet', () => {
    const firm = join(work, 'bare');
    cpSync('tests/example-firm', firm, { recursive: true });
    run([...NEW, '--firm', firm]);
    const own = schemasNamed(join(firm, 'content'));
    expect(own.map(([, schema]) => titleOf(schema))).toEqual(['Glossary term']);
  });
});
