import { createHash } from 'node:crypto';
import { existsSync, globSync, readFileSync, statSync } from 'node:fs';
import { extname, join } from 'node:path';
import { type Loader, transform } from 'esbuild';
import { type Entries, entriesByKind } from '../entries/index.ts';
import type { FirmFolder } from '../firm/index.ts';
import { homeFolder, type Kept } from '../folder/index.ts';

/** All that a site is made by: pages, engine, published values, what is handed out as it is. */
const MADE_BY = ['src/**', 'schemas/**/*.ts', 'public/**', 'astro.config.ts'];
/** The commands' own words stand on no page. */
const NOT_BY = /^src\/cli\//;

const LOADERS: { readonly [extension: string]: Loader } = {
  '.ts': 'ts',
  '.tsx': 'tsx',
  '.css': 'css',
};

/**
 * The version of a reference: a hash of what its entries say, of the firm's settings and
 * which releases it has made, of the sequences that ship solved, and of the code and packages that a site is made by. It changes when a figure, a word or the look
 * of a page can change, and not with the day, a rebuild, or a comment in the code.
 */
export function versionOf(
  entries: Entries,
  firm: FirmFolder | undefined,
  solved: string,
  code: string,
  releases: readonly string[] = [],
): string {
  const hash = createHash('sha256').update(JSON.stringify([solved, code]));
  if (firm) hash.update(JSON.stringify([firm.settings, firm.logo?.file]));
  if (releases.length > 0) hash.update(JSON.stringify(releases));
  if (firm?.visits) hash.update(JSON.stringify(firm.visits));
  for (const [, , { file, data, body }] of entriesByKind(entries))
    hash.update(JSON.stringify([file, data, body]));
  return hash.digest('hex').slice(0, 8);
}

/**
 * A hash of the code that a site is made by, without comments and layout, and of the packages
 * it is made with.
 * @param root the project's folder
 * @param kept where the hash of files that were read before is kept
 */
export async function siteCode(root = homeFolder(), kept?: Kept): Promise<string> {
  const files = globSync(MADE_BY, { cwd: root })
    .map((file) => file.replaceAll('\\', '/'))
    .filter((file) => !NOT_BY.test(file) && statSync(join(root, file)).isFile())
    .sort();
  const raw = files.map((file) => [file, readFileSync(join(root, file))] as const);
  const written = createHash('sha256');
  for (const [file, bytes] of raw)
    written.update(JSON.stringify([file, bytes.length])).update(bytes);
  written.update(packages(root));
  const name = `site-${written.digest('hex').slice(0, 40)}`;
  const before = kept?.read(name);
  if (before) return before.toString('utf8');
  const bare = await Promise.all(
    raw.map(async ([file, bytes]) => [file, await bareCode(file, bytes)]),
  );
  const code = createHash('sha256')
    .update(JSON.stringify([bare, packages(root)]))
    .digest('hex');
  kept?.write(name, Buffer.from(code));
  return code;
}

/** What a file says once comments and layout of its code are gone. */
async function bareCode(file: string, bytes: Buffer): Promise<string> {
  const extension = extname(file);
  const loader = LOADERS[extension];
  if (loader) return minified(bytes.toString('utf8'), loader);
  if (extension !== '.astro') return createHash('sha256').update(bytes).digest('hex');
  const [, code, template] = /^---\n(.*?)\n---\n(.*)$/s.exec(bytes.toString('utf8')) ?? [
    '',
    '',
    bytes.toString('utf8'),
  ];
  return `${await minified(code!, 'ts')}\n${template!.replaceAll(/\{\s*\/\*.*?\*\/\s*\}/gs, '')}`;
}

/** Files kept without comments and layout: several times as many as there are. */
const MOST_MINIFIED = 4096;

const known = new Map<string, Promise<string>>();

/** A text without comments and layout; worked out once a process. */
function minified(text: string, loader: Loader): Promise<string> {
  const key = createHash('sha256').update(`${loader} ${text}`).digest('base64');
  const before = known.get(key);
  if (before) return before;
  if (known.size >= MOST_MINIFIED) known.clear();
  const made = minify(text, loader);
  known.set(key, made);
  return made;
}

async function minify(text: string, loader: Loader): Promise<string> {
  const { code } = await transform(text, {
    loader,
    minify: true,
    legalComments: 'none',
    // What only a page's template uses must stay.
    tsconfigRaw: { compilerOptions: { verbatimModuleSyntax: true } },
  });
  return code;
}

/** Names and versions of the packages a site is made with; those of tests and tools stay out. */
function packages(root: string): string {
  const file = join(root, 'package-lock.json');
  if (!existsSync(file)) return '';
  const lock: { packages: Record<string, { version?: string; dev?: boolean }> } = JSON.parse(
    readFileSync(file, 'utf8'),
  );
  return JSON.stringify(
    Object.entries(lock.packages).flatMap(([name, { version, dev }]) =>
      name === '' || dev ? [] : [[name, version]],
    ),
  );
}
