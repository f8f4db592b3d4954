import { contentType } from '../../offline/content-types.ts';
import { FOR_GOOD, HASHED, isText, NEWS, SECURITY_HEADERS } from '../headers.ts';
import type { Answer } from './client.ts';
import type { Finding } from './findings.ts';

/** Below this length, bytes, hosts leave text as it is: it is one packet either way. */
const ONE_PACKET = 1400;
const YEAR = 31_536_000;
/** What a host that reads no headers file is told instead. */
const TELL = 'Tell the host, as README shows under “Publishing”';

/** What is wrong with how a file of the site was answered, apart from what it holds. */
export function answerFindings(answer: Answer, isSecure: boolean): Finding[] {
  const { path, status, headers } = answer;
  if (status !== 200) return [statusFinding(path, status, headers)];
  return [
    ...typeFindings(answer),
    ...encodingFindings(answer),
    ...cacheFindings(answer),
    ...securityFindings(answer, isSecure),
  ];
}

function statusFinding(path: string, status: number, headers: Headers): Finding {
  const to = headers.get('location');
  return {
    path,
    what: to
      ? 'a file of the site is sent elsewhere, and an offline phone does not follow'
      : 'a file of the site is not there, though the site says that it holds it',
    found: to ? `status ${status}, to ${to}` : `status ${status}`,
    allowed: 'status 200 and the file',
    mend: to
      ? 'Check the address that it leads to, or have the host serve the files as they lie'
      : 'Upload the whole folder that a build wrote; nothing in it may be left out or renamed',
  };
}

const fileOf = (path: string) => (path === '' || path.endsWith('/') ? `${path}index.html` : path);
const isIndexed = (path: string) => /^pagefind\/.*\.(pagefind|pf_\w+)$/.test(path);

/** A media type without its parameters. */
const baseType = (type: string) => type.replace(/;.*$/, '').trim().toLowerCase();

function typeFindings({ path, headers }: Answer): Finding[] {
  const wanted = baseType(contentType(fileOf(path)));
  const found = headers.get('content-type');
  const type = baseType(found ?? '');
  // A browser reads packs and the index as bytes, whatever they are called.
  if (wanted === 'application/octet-stream' && type !== 'text/html') return [];
  const same = [wanted, ...(ALIKE[wanted] ?? [])].includes(type);
  if (same) return [];
  return [
    {
      path,
      what: `the wrong content type for *.${fileOf(path).split('.').at(-1)}, and browsers told not to guess do not take it`,
      found: `content-type: ${found ?? 'none'}`,
      allowed: `content-type: ${contentType(fileOf(path))}`,
      mend: `${TELL}: files that end so have this type`,
    },
  ];
}

/** Other names that hosts have for a type, and browsers take. */
const ALIKE: Readonly<Record<string, readonly string[]>> = {
  'text/javascript': ['application/javascript'],
  'application/manifest+json': ['application/json'],
  'font/woff2': ['application/font-woff2'],
};

function encodingFindings({ path, headers, body }: Answer): Finding[] {
  const encoding = headers.get('content-encoding');
  const found = `content-encoding: ${encoding ?? 'none'}`;
  if (path.startsWith('offline/packs/') || isIndexed(path))
    return encoding === null || encoding === 'identity'
      ? []
      : [
          {
            path,
            what: 'what comes compressed is compressed again, which costs time and saves nothing',
            found,
            allowed: 'no content-encoding: packs and the index are sent as they are',
            mend: `${TELL}: compress text alone, not application/octet-stream`,
          },
        ];
  if (!isText(fileOf(path)) || body.length < ONE_PACKET) return [];
  if (encoding === 'br' || encoding === 'gzip') return [];
  return [
    {
      path,
      what: 'text is sent uncompressed, several times as long on a weak signal',
      found,
      allowed: 'content-encoding: br or gzip, where the browser asks for it',
      mend: `${TELL}: compress html css js json svg xml txt webmanifest`,
    },
  ];
}

function cacheFindings({ path, headers }: Answer): Finding[] {
  const said = headers.get('cache-control');
  const directives = (said ?? '')
    .toLowerCase()
    .split(',')
    .map((one) => one.trim());
  const age = Number(directives.find((one) => /^max-age=\d+$/.test(one))?.slice('max-age='.length));
  const found = `cache-control: ${said ?? 'none'}`;
  if (HASHED.some((folder) => path.startsWith(folder)))
    return directives.includes('immutable') && age >= YEAR
      ? []
      : [
          {
            path,
            what: 'a file that never changes is asked for again, which takes a signal each time',
            found,
            allowed: `cache-control: ${FOR_GOOD}`,
            mend: `${TELL}: this header for ${HASHED.map((folder) => `${folder}*`).join(' and ')}`,
          },
        ];
  if (!NEWS.includes(path)) return [];
  if (directives.some((one) => one === 'no-cache' || one === 'no-store') || age === 0) return [];
  return [
    {
      path,
      what: 'an old answer may stand in for this file, and phones are not told of a new version',
      found,
      allowed: 'cache-control: no-cache',
      mend: `${TELL}: this header for ${NEWS.join(', ')}; empty any cache before the host`,
    },
  ];
}

/** What is wrong with the headers that keep others' pages and programs away from the site's. */
export function securityFindings({ path, headers }: Answer, isSecure: boolean): Finding[] {
  return Object.entries(SECURITY_HEADERS).flatMap(([name, wanted]) => {
    // Browsers heed it over https alone (RFC 6797, 8.1).
    if (name === 'Strict-Transport-Security' && !isSecure) return [];
    const found = headers.get(name);
    if (found !== null && isAsStrict(name, found, wanted)) return [];
    return [
      {
        path,
        what: `a security header is ${found === null ? 'missing' : 'another'}: ${name}`,
        found: `${name}: ${found ?? 'none'}`,
        allowed: `${name}: ${wanted}`,
        mend: `${TELL}: all headers that stand below /* in the site’s own file _headers`,
      },
    ];
  });
}

/** Whether a header asks for at least what the site's own does. */
function isAsStrict(name: string, found: string, wanted: string): boolean {
  const parts = (text: string) =>
    text
      .toLowerCase()
      .split(/[,;]/)
      .map((one) => one.trim());
  if (name === 'Strict-Transport-Security')
    return Number(/max-age="?(\d+)/i.exec(found)?.[1] ?? 0) >= YEAR;
  return parts(wanted).every((part) => parts(found).includes(part));
}
