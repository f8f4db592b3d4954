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
import { join, resolve } from 'node:path';

const SOURCES = ['src', 'schemas', 'public', 'content', 'astro.config.ts', 'tsconfig.json'];
const PACKAGES = ['package.json', 'package-lock.json'];

/** A copy of the project that builds may be tried in, with a memory of its own. */
export interface House {
  readonly path: (inside: string) => string;
  /** Puts other text in the place of some; @throws Error where there is none to replace. */
  readonly edit: (file: string, from: string | RegExp, to: string) => void;
  /** Builds it as it stands now, and says what the build said. @throws Error with that if it failed */
  readonly build: (...flags: string[]) => string;
  /** Forgets all that builds kept, and what they wrote. */
  readonly forget: () => void;
  readonly remove: () => void;
}

/** Makes a copy of the project in a folder of its own; its packages are those installed here. */
export function makeHouse(): House {
  const root = mkdtempSync(join(tmpdir(), 'house-'));
  const path = (inside: string) => join(root, inside);
  for (const one of [...SOURCES, ...PACKAGES]) cpSync(resolve(one), path(one), { recursive: true });
  mkdirSync(path('node_modules'));
  for (const name of readdirSync('node_modules'))
    if (!name.startsWith('.'))
      symlinkSync(resolve('node_modules', name), path(`node_modules/${name}`));
  return {
    path,
    edit(file, from, to) {
      const text = readFileSync(path(file), 'utf8');
      const edited = text.replace(from, to);
      if (edited === text) throw new Error(`${file} holds nothing like ${from}`);
      writeFileSync(path(file), edited);
    },
    build(...flags) {
      const { NODE_ENV, MODE, DEV, PROD, SSR, VITEST, ...env } = process.env;
      const { status, stderr } = spawnSync(
        process.execPath,
        ['--max-semi-space-size=64', 'src/cli/build.ts', ...flags],
        // What is compiled stays so, whatever of the site is forgotten.
        { cwd: root, env: { ...env, NODE_COMPILE_CACHE: path('compiled') }, encoding: 'utf8' },
      );
      if (status !== 0) throw new Error(stderr);
      return stderr;
    },
    forget() {
      for (const kept of ['.astro', 'node_modules/.cache', 'dist'])
        rmSync(path(kept), { recursive: true, force: true });
    },
    remove: () => rmSync(root, { recursive: true, force: true }),
  };
}
