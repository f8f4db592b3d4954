import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { buildSync } from 'esbuild';

const known = new Map<string, string | null>();

/**
 * A name for the code that a module runs through: itself and all it imports, packages too,
 * bundled and minified and then hashed. Comments, layout and types do not change it; anything
 * that could change a result does, and published values are code.
 *
 * @param module path from the root, as in `src/diagnosis/index.ts`
 * @param root folder that holds the sources; where the command runs unless given
 * @returns null where the sources are not at hand
 */
export function codeKey(module: string, root = process.cwd()): string | null {
  const file = join(root, module);
  const found = known.get(file);
  if (found !== undefined) return found;
  const key = existsSync(file) ? bundleHash(file, root) : null;
  known.set(file, key);
  return key;
}

/** Forgets what it knows of code: a running server's sources have changed. */
export function forgetCode(): void {
  known.clear();
}

function bundleHash(file: string, root: string): string {
  const { outputFiles } = buildSync({
    entryPoints: [file],
    absWorkingDir: root,
    bundle: true,
    minify: true,
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
