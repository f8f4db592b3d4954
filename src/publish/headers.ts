/** A set of headers for the paths that a pattern names; `*` stands for anything. */
interface HeaderRule {
  /** From the site's base, as in `_astro/*`. */
  readonly pattern: string;
  readonly headers: Readonly<Record<string, string>>;
}

/**
 * What a host must say with every file beside the policy that each page carries: no framing, no
 * sniffing of types, no referrer, no sensors, no window shared with another site.
 */
export const SECURITY_HEADERS: Readonly<Record<string, string>> = {
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Content-Security-Policy': "frame-ancestors 'none'",
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=(), payment=(), usb=()',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Strict-Transport-Security': 'max-age=31536000',
};

/** Files whose name is their hash: what a browser has of them stays true for good. */
export const HASHED = ['_astro/', 'offline/packs/'];

/** What says that there is another version: always asked for again. */
export const NEWS = ['sw.js', 'version.json', 'offline/manifest.json'];

export const FOR_GOOD = 'public, max-age=31536000, immutable';

/**
 * How long a browser may keep a file without asking again.
 * @param path from the site's base
 */
export const cacheControl = (path: string): string =>
  HASHED.some((folder) => path.startsWith(folder)) ? FOR_GOOD : 'no-cache';

/** Whether a file is text, which a host compresses. Packs, pictures and the index come compressed as they are. */
export const isText = (path: string): boolean =>
  /\.(css|html|js|json|mjs|svg|txt|webmanifest|xml)$/.test(path);

const RULES: readonly HeaderRule[] = [
  { pattern: '*', headers: SECURITY_HEADERS },
  ...HASHED.map((folder) => ({
    pattern: `${folder}*`,
    headers: { 'Cache-Control': FOR_GOOD },
  })),
  ...NEWS.map((file) => ({ pattern: file, headers: { 'Cache-Control': 'no-cache' } })),
  { pattern: 'icons/*', headers: { 'Cache-Control': 'public, max-age=604800' } },
  {
    pattern: 'manifest.webmanifest',
    headers: { 'Content-Type': 'application/manifest+json' },
  },
];

/**
 * The headers file of a site, for hosts that read one: a path pattern a block, a header a line.
 * @param base path the site is served under, as in `/reference`.
 */
export function headersFile(base = '/'): string {
  const root = `${base.replace(/\/+$/, '')}/`;
  return RULES.map(
    ({ pattern, headers }) =>
      `${root}${pattern}\n${Object.entries(headers)
        .map(([name, value]) => `  ${name}: ${value}\n`)
        .join('')}`,
  ).join('\n');
}
