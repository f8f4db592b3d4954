import { createHash } from 'node:crypto';
import { existsSync, globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { homeFolder, keptFolder, keptIn } from '../folder/index.ts';

/** Where in its packages' folder the hashes of another root are kept. */
const KEPT = '.cache/proveline';

const known = new Map<string, string | null>();
/** By root: all its sources in one hash, read once for all modules. */
const written = new Map<string, Buffer>();

/**
 * A name for the code that a module runs through: itself and all it imports, packages too,
 * bundled, with comments and blanks taken out, and then hashed. Comments, layout and types do
 * not change it; anything that could change a result does, and published values are code.
 *
 * @param module path from the root, as in `src/diagnosis/index.ts`
 * @param root folder that holds the sources; where the command runs unless given
 * @returns null where the sources are not at hand
 */
export function codeKey(module: string, root = homeFolder()): string | null {
  const file = join(root, module);
  const found = known.get(file);
  if (found !== undefined) return found;
  const key = existsSync(file) ? keptHash(module, root) : null;
  known.set(file, key);
  return key;
}

/** The hash of a module’s code; bundled again only where some source or package is not as it was. */
function keptHash(module: string, root: string): string {
  const folder = keptBeside(root);
  if (folder === null) return bundleHash(join(root, module), root);
  const kept = keptIn(join(folder, 'code'));
  const name = `bundle-${createHash('sha256').update(module).update(sourcesOf(root)).digest('hex').slice(0, 40)}`;
  const before = kept.read(name);
  if (before) return before.toString('utf8');
  const hash = bundleHash(join(root, module), root);
  kept.write(name, Buffer.from(hash));
  return hash;
}

/** Where hashes of a root's code are kept; null where it has no packages to keep them among. */
function keptBeside(root: string): string | null {
  if (root === homeFolder()) return keptFolder();
  const modules = join(root, 'node_modules');
  return existsSync(modules) ? join(modules, KEPT) : null;
}

/** A hash of all sources as they are written, comments too, and of the packages. */
function sourcesOf(root: string): Buffer {
  const before = written.get(root);
  if (before) return before;
  const hash = createHash('sha256');
  for (const file of globSync(['src/**/*.ts', 'schemas/**/*.ts'], { cwd: root }).sort())
    hash.update(JSON.stringify(file)).update(readFileSync(join(root, file)));
  const lock = join(root, 'package-lock.json');
  if (existsSync(lock)) hash.update(readFileSync(lock));
  const made = hash.digest();
  written.set(root, made);
  return made;
}

/** Forgets what it knows of code: a running server's sources have changed. */
export function forgetCode(): void {
  known.clear();
  written.clear();
}

function bundleHash(file: string, root: string): string {
  const { outputFiles } = buildSync({
    entryPoints: [file],
    absWorkingDir: root,
    bundle: true,
    minifySyntax: true,
    minifyWhitespace: true,
    write: false,
    format: 'esm',
    platform: 'node',
    legalComments: 'none',
    logLevel: 'silent',
  });
  const hash = createHash('sha256');
  for (const { contents } of outputFiles) hash.update(contents);
  return hash.digest('hex');
}
