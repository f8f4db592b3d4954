import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** What an install leaves in a folder before there is a firm in it. */
export const INSTALLED: ReadonlySet<string> = new Set([
  'package.json',
  'package-lock.json',
  'node_modules',
]);

/** Commands that a firm's folder has under the names by which they are spoken of. */
const SCRIPTS =
  'start dev build serve check new review import export schemas release changes gather pack upgrade'.split(
    ' ',
  );

/** What git leaves alone: packages, Proveline as laid out, a built site. */
const IGNORED = ['node_modules/', '.proveline/', 'dist/'];

/** A package file as far as it is read and written here. */
interface PackageFile {
  readonly [key: string]: unknown;
  readonly scripts?: Readonly<Record<string, string>>;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly allowScripts?: Readonly<Record<string, boolean>>;
}

/**
 * Makes a firm's folder a repository of its own with one dependency: its package file, with the
 * commands under the names by which Proveline speaks of them, and what git leaves alone. What
 * stands there already stays.
 * @param version of Proveline, taken where no install has said another
 */
export function writeFirmPackage(folder: string, name: string, version: string): void {
  const file = join(folder, 'package.json');
  const there: PackageFile = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {};
  const scripts = Object.fromEntries(SCRIPTS.map((one) => [one, `proveline ${one}`]));
  const written: PackageFile = {
    name: packageName(name),
    private: true,
    ...there,
    scripts: { ...there.scripts, ...scripts },
    dependencies: { proveline: version, ...there.dependencies },
    // They set up Node 24 and what bundles pages.
    allowScripts: { ...there.allowScripts, node: true, esbuild: true },
  };
  writeFileSync(file, `${JSON.stringify(written, null, 2)}\n`);
  const ignore = join(folder, '.gitignore');
  const lines = existsSync(ignore) ? readFileSync(ignore, 'utf8').split('\n') : [];
  const missing = IGNORED.filter((line) => !lines.includes(line));
  writeFileSync(ignore, [...lines.filter((line) => line !== ''), ...missing, ''].join('\n'));
}

/** A name that npm takes. */
const packageName = (name: string): string =>
  name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '') || 'our-firm';
