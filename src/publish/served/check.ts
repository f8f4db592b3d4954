import { createHash } from 'node:crypto';
import { gunzipSync } from 'node:zlib';
import { z } from 'zod';
import { NOT_FOUND_PAGE, type PackInfo, VERSION_FILE } from '../../offline/manifest.ts';
import { decodePack } from '../../offline/pack.ts';
import { baseOf } from '../built-site.ts';
import { type Answer, clientOf, type Fetch } from './client.ts';
import { type Finding, type Told, together } from './findings.ts';
import { answerFindings, securityFindings } from './rules.ts';

/** What a published address was found to do. */
export interface Published {
  /** Address of the site's first page. */
  readonly base: string;
  /** How many files of it were asked for. */
  readonly asked: number;
  /** The version it serves, where it says. */
  readonly version?: string;
  readonly findings: readonly Told[];
}

/** Packs that are fetched and hashed: spread over all of them. */
const PACKS_TRIED = 12;
/** Hashed scripts and styles of the first page that are tried. */
const ASSETS_TRIED = 8;
/** A page that no site holds. */
const NOWHERE = 'there-is-no-such-page/';
const MANIFEST = 'offline/manifest.json';
const ENTRY = 'pagefind/pagefind-entry.json';
/** Files that every site holds, each of a kind that hosts go wrong with. */
const ALWAYS = [
  'sw.js',
  VERSION_FILE,
  MANIFEST,
  'manifest.webmanifest',
  'icons/icon.svg',
  'icons/icon-192.png',
  'data/index.json',
  'search/',
  'labels/',
  'pagefind/pagefind.js',
  ENTRY,
];

const Manifest = z.object({
  version: z.string(),
  packs: z
    .array(
      z.object({
        url: z.string().regex(/^offline\/packs\/[\w.-]+\.pack$/),
        bytes: z.number(),
        sha256: z.string(),
        files: z.array(z.string()),
      }),
    )
    .min(1),
});
type Manifest = z.infer<typeof Manifest>;
const Version = z.object({ version: z.string() });
const Entry = z.object({
  languages: z.record(z.string(), z.object({ hash: z.string(), wasm: z.string() })),
});

/**
 * Asks a published address, and nothing but it, for a bounded number of the site's own files, and
 * compares how they are served with what the site needs.
 * @param address of the site's first page
 * @throws Error when the address does not answer, or what answers is no built site
 */
export async function checkPublished(
  address: string,
  ask?: Fetch,
  step: (done: number, of: number) => void = () => {},
): Promise<Published> {
  const client = clientOf(address, ask);
  const { base } = client;
  const isSecure = base.protocol === 'https:';
  const home = await client.get('');
  const html = textOf(home);
  const built = baseOf(html);
  if (home.status !== 200 || built === undefined) throw new Error(noSite(base, home));
  const findings: Finding[] = [
    ...schemeFindings(base),
    ...baseFindings(built, base),
    ...answerFindings(home, isSecure),
  ];
  if (built !== base.pathname)
    return { base: base.href, asked: client.asked(), findings: together(findings) };
  const assets = assetsOf(html, built).slice(0, ASSETS_TRIED);
  const answers = new Map<string, Answer>([['', home]]);
  const all = ALWAYS.length + assets.length + PACKS_TRIED + 4;
  const take = async (path: string) => {
    const answer = await client.get(path);
    step(client.asked(), all);
    answers.set(path, answer);
    findings.push(...answerFindings(answer, isSecure));
    return answer;
  };
  for (const path of [...ALWAYS, ...assets]) await take(path);
  findings.push(...missingPageFindings(await client.get(NOWHERE), isSecure));
  findings.push(...(await indexFindings(answers.get(ENTRY)!, take)));
  const manifest = readAs(Manifest, answers.get(MANIFEST)!, findings);
  if (manifest) {
    findings.push(...versionFindings(manifest, answers.get(VERSION_FILE)!, findings));
    for (const pack of packsTried(manifest)) {
      const answer = await take(pack.url);
      findings.push(...packFindings(pack, answer, home));
    }
  }
  return {
    base: base.href,
    asked: client.asked(),
    ...(manifest ? { version: manifest.version } : {}),
    findings: together(findings),
  };
}

const textOf = ({ body }: Answer) => new TextDecoder().decode(body);

function noSite({ href }: URL, { status, headers }: Answer): string {
  const to = headers.get('location');
  if (to) return `${href} sends readers on to ${to}. Check that address instead`;
  if (status !== 200)
    return `${href} answers with status ${status}: there is no site at this address. Give that of the site’s first page`;
  return `${href} holds a page that no build of Proveline wrote. Give the address of the site’s first page`;
}

function schemeFindings({ protocol, hostname }: URL): Finding[] {
  const isHere = /^(localhost|.*\.localhost|127(\.\d+){3}|\[::1\])$/.test(hostname);
  if (protocol === 'https:' || isHere) return [];
  return [
    {
      path: '',
      what: 'phones save nothing for offline use from an address without https',
      found: 'http',
      allowed: 'https, or this machine itself (localhost)',
      mend: 'Have the host serve it over https, with a certificate that browsers accept',
    },
  ];
}

function baseFindings(built: string, { pathname }: URL): Finding[] {
  if (built === pathname) return [];
  return [
    {
      path: '',
      what: 'the site was built for another path of the host, so its styles and links lead nowhere',
      found: `built for ${built}`,
      allowed: `built for ${pathname}, where it is served`,
      mend: `BASE_PATH=${pathname} npm run build, or base: ${pathname} in firm.yaml; then upload it again`,
    },
  ];
}

/** Hashed files that the first page names, those of each ending in turn. */
function assetsOf(html: string, base: string): string[] {
  const named = [...html.matchAll(/\s(?:href|src)="([^"]+)"/g)].flatMap(([, to]) =>
    to!.startsWith(`${base}_astro/`) ? [to!.slice(base.length)] : [],
  );
  const byEnding = Map.groupBy(new Set(named), (path) => path.split('.').at(-1));
  const most = Math.max(0, ...[...byEnding.values()].map(({ length }) => length));
  return Array.from({ length: most }, (_, i) =>
    [...byEnding.values()].flatMap((paths) => paths[i] ?? []),
  ).flat();
}

function missingPageFindings(answer: Answer, isSecure: boolean): Finding[] {
  const { path, status } = answer;
  const own = baseOf(textOf(answer)) !== undefined;
  if (status === 404 && own) return securityFindings(answer, isSecure);
  return [
    {
      path,
      what: own
        ? 'a page that is not there is told as if it were, and phones and searches keep it'
        : 'a page that is not there is not answered by the site’s own page, which leads back',
      found: `status ${status}${own ? '' : ', another page'}`,
      allowed: `status 404 and ${NOT_FOUND_PAGE}`,
      mend: `Tell the host that ${NOT_FOUND_PAGE} is its page for what is not there, with status 404; no rule that answers every address with the first page`,
    },
  ];
}

/** What the search index is made of: fetched by the names that its entry file gives. */
async function indexFindings(
  entry: Answer,
  take: (path: string) => Promise<Answer>,
): Promise<Finding[]> {
  const findings: Finding[] = [];
  const index = readAs(Entry, entry, findings);
  const [language] = Object.values(index?.languages ?? {});
  if (!language) return findings;
  for (const path of [
    `pagefind/pagefind.${language.hash}.pf_meta`,
    `pagefind/wasm.${language.wasm}.pagefind`,
  ]) {
    const { status, body } = await take(path);
    if (status === 200 && !isWholeGzip(body))
      findings.push({
        path,
        what: 'the search index is altered on its way, and search by the words of pages fails',
        found: `${body.length} bytes that are not what the indexer wrote`,
        allowed: 'the file as it was built, byte for byte',
        mend: 'Upload it again as bytes, not text, and let nothing between compress or rewrite it',
      });
  }
  return findings;
}

/** Whether bytes are a whole gzip member with its own sum (RFC 1952). */
function isWholeGzip(body: Uint8Array): boolean {
  try {
    return gunzipSync(body).length > 0;
  } catch {
    return false;
  }
}

/** Packs tried: those that hold the first page, then others spread over all. */
function packsTried({ packs }: Manifest): Manifest['packs'] {
  const home = packs.findIndex(({ files }) => files.includes('index.html'));
  const spread = Array.from({ length: PACKS_TRIED }, (_, i) =>
    Math.floor((i * packs.length) / PACKS_TRIED),
  );
  const at = new Set(home === -1 ? spread : [home, ...spread]);
  return [...at].slice(0, PACKS_TRIED).map((i) => packs[i]!);
}

function packFindings(
  pack: Pick<PackInfo, 'url' | 'bytes' | 'sha256'>,
  { path, status, body }: Answer,
  home: Answer,
): Finding[] {
  if (status !== 200) return [];
  const sha256 = createHash('sha256').update(body).digest('hex').slice(0, pack.sha256.length);
  if (sha256 !== pack.sha256)
    return [
      {
        path,
        what: 'a pack is altered on its way, and phones refuse what does not fit its name',
        found: `${body.length} bytes, SHA-256 ${sha256}`,
        allowed: `${pack.bytes} bytes, SHA-256 ${pack.sha256}, as ${MANIFEST} says`,
        mend: 'Upload the whole folder again, packs as bytes; let nothing between rewrite them',
      },
    ];
  const own = decodePack(new Uint8Array(gunzipSync(body))).find((one) => one.path === 'index.html');
  if (!own || Buffer.compare(own.body, home.body) === 0) return [];
  return [
    {
      path: '',
      what: 'the page that is served is not the one that was built, and its policy may refuse it',
      found: `${home.body.length} bytes, and other ones`,
      allowed: `the ${own.body.length} bytes of index.html, as a pack of the same version holds it`,
      mend: 'Switch off whatever rewrites, minifies or adds to pages at the host, or upload again',
    },
  ];
}

function versionFindings({ version }: Manifest, answer: Answer, findings: Finding[]): Finding[] {
  const told = readAs(Version, answer, findings)?.version;
  if (told === undefined || told === version) return [];
  return [
    {
      path: VERSION_FILE,
      what: 'files of two versions are served together: an upload stopped, or a cache holds one',
      found: `version ${told}`,
      allowed: `version ${version}, as ${MANIFEST} says`,
      mend: 'Upload the whole folder again, and empty any cache before the host',
    },
  ];
}

/** What a file says; a finding where it is not what a build writes. */
function readAs<T>(schema: z.ZodType<T>, answer: Answer, findings: Finding[]): T | undefined {
  if (answer.status !== 200) return undefined;
  try {
    return schema.parse(JSON.parse(textOf(answer)));
  } catch {
    findings.push({
      path: answer.path,
      what: 'the file is not what a build writes, and what hangs on it could not be looked at',
      found: textOf(answer).slice(0, 60).replaceAll(/\s+/g, ' '),
      allowed: 'the file as it was built',
      mend: 'Upload the whole folder that a build wrote',
    });
    return undefined;
  }
}
