import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { SystemData } from '../../src/data/index.ts';
import { routeOf } from '../../src/job/ui/route.ts';
import { readFragment } from '../../src/wiring/core-planner/index.ts';
import { DIST, filesOfSite } from '../support/site-folder.ts';

const SITE = 'https://site.example';
const files = new Set(filesOfSite());
const pages = [...files]
  .filter((path) => path.endsWith('.html'))
  .map((path) => ({ path, html: readFileSync(join(DIST, path), 'utf8') }));

/** Attributes that send a browser to an address; `srcset` is a list of them. */
const ADDRESS = /\s(href|src|srcset|action|poster|data|formaction)=(?:"([^"]*)"|([^\s">]+))/g;

/** Every address a page holds in a tag, with the page it stands on. */
const addresses = pages.flatMap(({ path, html }) =>
  [...html.matchAll(/<[a-z][^<>]*>/gi)].flatMap(([tag]) =>
    [...tag.matchAll(ADDRESS)].map(([, name, quoted, bare]) => ({
      path,
      name,
      url: new URL((quoted ?? bare)!.replaceAll('&amp;', '&'), `${SITE}/${path}`),
    })),
  ),
);

test('there are pages, with links', () => {
  expect(pages.length).toBeGreaterThan(50);
  expect(addresses.length).toBeGreaterThan(1000);
});

test('no page names another host in a tag', () => {
  // A telephone number leads to no host.
  const own = ['data:', 'tel:'];
  const foreign = addresses.filter(({ url }) => url.origin !== SITE && !own.includes(url.protocol));
  expect(foreign.map(({ path, url }) => `${path}: ${url.href}`)).toEqual([]);
});

test('no style and no script loads from another host', () => {
  const texts = [...files].filter((path) => /\.(css|js|webmanifest)$/.test(path));
  expect(texts.length).toBeGreaterThan(3);
  const loads =
    /(?:url\(|@import\s*|import\s*\(?\s*|from\s*|fetch\(\s*)["']?(?:https?:)?\/\/[^\s"')]+/g;
  for (const path of texts)
    expect([path, readFileSync(join(DIST, path), 'utf8').match(loads)]).toEqual([path, null]);
});

test('every address within the site leads to a file', () => {
  const missing = addresses.filter(({ url }) => {
    if (url.origin !== SITE) return false;
    const path = decodeURIComponent(url.pathname.slice(1));
    return !files.has(path) && !files.has(`${path}index.html`);
  });
  expect(missing.map(({ path, url }) => `${path}: ${url.pathname}`)).toEqual([]);
});

/** An address of the page of jobs that opens one, or begins with what is not there. */
const isLost = ({ job, system, seen, foreign }: ReturnType<typeof routeOf>): boolean => {
  if (job !== null || !isSystem(system) || foreign.length > 0) return true;
  return !seen.every(({ mode, outcome }) => testsOf(system!).has(`look:${outcome}@${mode}`));
};
const known = new Map<string, ReadonlySet<string>>();
/** Ids of a system's tests, as its open data lists them. */
function testsOf(system: string): ReadonlySet<string> {
  const data = () =>
    SystemData.parse(
      JSON.parse(readFileSync(join(DIST, 'data', 'systems', `${system}.json`), 'utf8')),
    );
  const ids = known.get(system) ?? new Set(data().diagnosis.tests.map(({ id }) => id));
  known.set(system, ids);
  return ids;
}
const isSystem = (id: string | null) => id === null || files.has(`systems/${id}/index.html`);

test('every address of a place leads to that place', () => {
  const ids = new Map(
    pages.map(({ path, html }) => {
      const found = [...html.matchAll(/\sid=(?:"([^"]*)"|([^\s">]+))/g)];
      return [path, new Set(found.map(([, quoted, bare]) => quoted ?? bare))];
    }),
  );
  const lost = addresses.filter(({ url }) => {
    // The page of jobs has no places: its script reads the address, and no job is the site's own.
    if (url.pathname === '/job/') return isLost(routeOf(url));
    // What is asked of the planner stands in its address.
    if (/^\/planner\/(index\.html)?$/.test(url.pathname) && url.hash.includes('='))
      return readFragment(url.hash).problems.length > 0;
    const path = decodeURIComponent(url.pathname.slice(1));
    const there = ids.get(path.endsWith('/') || path === '' ? `${path}index.html` : path);
    return there && url.hash.length > 1 && !there.has(decodeURIComponent(url.hash.slice(1)));
  });
  expect(lost.map(({ path, url }) => `${path}: ${url.pathname}${url.hash}`)).toEqual([]);
});

test('no page uses one id twice', () => {
  const twice = pages.flatMap(({ path, html }) => {
    const seen = new Set<string>();
    return [...html.matchAll(/<[a-z][^<>]*?\sid="([^"]+)"/gi)]
      .map(([, id]) => id!)
      .filter((id) => seen.size === seen.add(id).size)
      .map((id) => `${path}: ${id}`);
  });
  expect(twice).toEqual([]);
});
