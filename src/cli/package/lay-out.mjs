import { createHash } from 'node:crypto';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';

/** What the package holds of Proveline's own folder. */
const PARTS = [
  'src',
  'schemas',
  'content',
  'public',
  'astro.config.ts',
  'tsconfig.json',
  'package.json',
  'LICENSE',
];
const STAMP = 'laid-out.json';
const MODULES = 'node_modules';

/**
 * Lays Proveline out in a folder of the firm's own, and gives where. Node does not run TypeScript
 * below `node_modules`, the page maker leaves what lies there alone, and a package is nobody's
 * place to write into: so its files are copied out of it, once for each version and install. A
 * clone, which lies in no `node_modules`, is taken as it is.
 * @param {string} from the package's folder
 * @param {string} into the folder of copies and caches
 * @returns {string} Proveline's own folder
 */
export function layOut(from, into) {
  const source = realpathSync(from);
  if (!source.split(sep).includes(MODULES)) return source;
  const home = join(into, 'app');
  const stamp = stampOf(source);
  if (readStamp(home) !== stamp) {
    const beside = join(into, `app-${process.pid}`);
    mkdirSync(into, { recursive: true });
    writeFileSync(join(into, '.gitignore'), '*\n');
    rmSync(beside, { recursive: true, force: true });
    for (const part of PARTS)
      if (existsSync(join(source, part)))
        cpSync(join(source, part), join(beside, part), { recursive: true });
    linkPackages(source, home, beside);
    copyVersions(source, beside);
    writeFileSync(join(beside, STAMP), JSON.stringify({ stamp }));
    takePlace(beside, home, stamp);
  }
  return realpathSync(home);
}

/** @param {string} source @returns {string} what tells one install of the package from another */
function stampOf(source) {
  const hash = createHash('sha256').update(source);
  for (const part of PARTS) {
    const path = join(source, part);
    if (existsSync(path)) addFiles(path);
  }
  const versions = versionsFile(source);
  if (versions !== undefined) hash.update(readFileSync(versions));
  return hash.digest('hex');

  /** @param {string} path */
  function addFiles(path) {
    const found = statSync(path);
    if (found.isDirectory())
      for (const name of readdirSync(path).sort()) addFiles(join(path, name));
    else hash.update(JSON.stringify([relative(source, path), found.size, found.ctimeMs]));
  }
}

/** @param {string} home @returns {unknown} */
function readStamp(home) {
  try {
    return JSON.parse(readFileSync(join(home, STAMP), 'utf8')).stamp;
  } catch {
    return undefined;
  }
}

/** @param {string} beside @param {string} home @param {string} stamp */
function takePlace(beside, home, stamp) {
  try {
    rmSync(home, { recursive: true, force: true });
    renameSync(beside, home);
  } catch (error) {
    // Another command laid the same out meanwhile.
    rmSync(beside, { recursive: true, force: true });
    if (readStamp(home) !== stamp) throw error;
  }
}

/** The folder of packages that the package was installed into. @param {string} source */
const packagesOf = (source) =>
  source.slice(0, source.lastIndexOf(`${sep}${MODULES}${sep}`) + MODULES.length + 1);

/** npm's own list of what it installed, with versions. @param {string} source */
function versionsFile(source) {
  const file = join(packagesOf(source), '.package-lock.json');
  return existsSync(file) ? file : undefined;
}

/** So that the version of a site counts in its packages. @param {string} source @param {string} home */
function copyVersions(source, home) {
  const file = versionsFile(source);
  if (file !== undefined) cpSync(file, join(home, 'package-lock.json'));
}

/**
 * Links the packages that Proveline uses into its folder where they would not be found from it:
 * those of an install elsewhere, as npx makes one, and those installed below the package itself.
 * @param {string} source
 * @param {string} home where it will lie
 * @param {string} beside where it is laid out
 */
function linkPackages(source, home, beside) {
  const packages = packagesOf(source);
  const own = join(source, MODULES);
  const isAbove = `${home}${sep}`.startsWith(`${dirname(packages)}${sep}`);
  const folders = [...(isAbove ? [] : [packages]), ...(existsSync(own) ? [own] : [])];
  for (const folder of folders)
    for (const name of namesIn(folder)) {
      const link = join(beside, MODULES, name);
      mkdirSync(dirname(link), { recursive: true });
      rmSync(link, { recursive: true, force: true });
      symlinkSync(join(folder, name), link, 'junction');
    }
}

/** @param {string} folder @returns {string[]} names of packages, with their scopes */
const namesIn = (folder) =>
  readdirSync(folder)
    .filter((name) => !name.startsWith('.'))
    .flatMap((name) =>
      name.startsWith('@') ? readdirSync(join(folder, name)).map((one) => join(name, one)) : [name],
    );
