import { describe, expect, test } from 'vitest';
import { bringPack, saveVersion } from '../../src/offline/install.ts';
import type { PackInfo, Version } from '../../src/offline/manifest.ts';
import { holdingOf } from '../../src/offline/mending.ts';
import { openReader } from '../../src/offline/reading.ts';
import { openServing } from '../../src/offline/serving.ts';
import { openStore, type Store } from '../../src/offline/store.ts';
import { shouldTakeUp, stateFor, takeUp, tidy } from '../../src/offline/turnover.ts';
import { memoryCaches } from './memory-caches.ts';
import { type MemorySite, memorySite, SCOPE } from './memory-site.ts';

const pages = (edition: string) => ({
  'index.html': `first ${edition}`,
  '404.html': `no page ${edition}`,
  'systems/combi/index.html': `combi ${edition}`,
  'same.css': 'a{}',
  'search/names.json': `names ${edition}`,
});
/** Name of the cache with the packs. */
const PACKS = 'proveline /base/ packs';

/** Serving with no network, unless one is given; packs come from it too. */
function serve(
  store: Store,
  fetch: (request: Request) => Promise<Response> = noNetwork,
  bring = (pack: PackInfo) =>
    bringPack(pack, SCOPE, store, (address) => fetch(new Request(address))),
) {
  return openServing(store, openReader(store, bring), SCOPE, fetch);
}

const noNetwork = () => Promise.reject(new TypeError('Failed to fetch'));

async function save(site: MemorySite, store: Store, since: number): Promise<Version> {
  await store.addKnown({ version: site.version, since });
  await saveVersion(site.version, SCOPE, store, site.effects);
  return site.version;
}

/** A request as the browser makes it to open a page; Node's own class makes no such request. */
const opening = (path: string) =>
  Object.defineProperty(new Request(SCOPE + path), 'mode', { value: 'navigate' });

async function twoVersions() {
  const caches = memoryCaches();
  const store = openStore(caches, SCOPE);
  const one = await save(await memorySite(pages('one')), store, 1);
  const two = await save(
    await memorySite(pages('two'), { version: '2', date: '2026-11-26' }),
    store,
    2,
  );
  await takeUp(one, store, []);
  const serving = serve(store);
  const open = (path: string, resultingClientId = 'page') =>
    serving.answer({ request: opening(path), clientId: '', resultingClientId });
  const ask = (path: string, clientId = 'page', resultingClientId = '') =>
    serving.answer({ request: new Request(SCOPE + path), clientId, resultingClientId });
  return { caches, store, one, two, serving, open, ask };
}

describe('a saved version, with no network,', () => {
  test('answers for its pages and files, whatever is asked after the question mark', async () => {
    const { open, ask } = await twoVersions();
    const page = await open('systems/combi/?mode=heating');
    expect(page.status).toBe(200);
    expect(page.headers.get('content-type')).toBe('text/html; charset=utf-8');
    expect(await page.text()).toBe('combi one');
    expect(await (await ask('search/names.json?ts=17')).text()).toBe('names one');
  });

  test('leads on from a former name, with all that stands behind the question mark', async () => {
    const site = await memorySite(
      { ...pages('one'), 'systems/old/index.html': 'leads on', 'job/combi.json': '{}' },
      { former: { systems: { old: 'combi' } } },
    );
    expect(site.manifest.packs.flatMap(({ files }) => files)).not.toContain(
      'systems/old/index.html',
    );
    const store = openStore(memoryCaches(), SCOPE);
    await takeUp(await save(site, store, 1), store, []);
    const serving = serve(store);
    const led = async (path: string) => {
      const request = opening(path);
      const { status, headers } = await serving.answer({
        request,
        clientId: '',
        resultingClientId: 'page',
      });
      return [status, headers.get('location')];
    };
    expect(await led('systems/old/?mode=heating')).toEqual([
      301,
      `${SCOPE}systems/combi/?mode=heating`,
    ]);
    expect(await led('systems/old')).toEqual([301, `${SCOPE}systems/combi`]);
    expect(await led('systems/old/as-found/')).toEqual([301, `${SCOPE}systems/combi/as-found/`]);
    expect(await led('job/old.json')).toEqual([301, `${SCOPE}job/combi.json`]);
    expect(await led('systems/combi/')).toEqual([200, null]);
  });

  test('leaves out what was left out under a former name', async () => {
    const site = await memorySite(
      { ...pages('one'), 'systems/combi/as-found/index.html': 'as found' },
      { former: { systems: { old: 'combi' } } },
    );
    const store = openStore(memoryCaches(), SCOPE);
    await store.setLeftOut(['old']);
    await takeUp(await save(site, store, 1), store, []);
    expect((await holdingOf(site.version, [], store))?.leftOut).toEqual(['combi']);
    const request = opening('systems/combi/as-found/');
    const page = await serve(store).answer({ request, clientId: '', resultingClientId: 'page' });
    expect(await page.text()).toContain('You chose not to keep this system');
  });

  test('sends an address without its last slash to the one with it', async () => {
    const { open } = await twoVersions();
    const answer = await open('systems/combi?mode=heating');
    expect(answer.status).toBe(301);
    expect(answer.headers.get('location')).toBe(`${SCOPE}systems/combi/?mode=heating`);
  });

  test('answers 404 with its not-found page', async () => {
    const { open } = await twoVersions();
    const answer = await open('systems/nothing/');
    expect([answer.status, await answer.text()]).toEqual([404, 'no page one']);
  });

  test('has a page even for a file that was not saved, and an error for what a page asks', async () => {
    const { open, ask } = await twoVersions();
    const page = await open('data/large.json');
    expect(page.status).toBe(503);
    expect(await page.text()).toContain('This is not among what is saved on this device.');
    expect((await ask('data/large.json')).type).toBe('error');
  });
});

test('before anything is saved the network answers', async () => {
  const store = openStore(memoryCaches(), SCOPE);
  const serving = serve(store, async () => new Response('from the network'));
  const asked = { request: opening(''), clientId: '', resultingClientId: 'page' };
  expect(await (await serving.answer(asked)).text()).toBe('from the network');
});

test('an address out of reach of the saved version is answered by the network', async () => {
  const { store, one } = await twoVersions();
  const serving = serve(store, async ({ url }) => new Response(url));
  const asked = {
    request: new Request(`${SCOPE}data/large.json`),
    clientId: 'page',
    resultingClientId: '',
  };
  expect(await (await serving.answer(asked)).text()).toBe(`${SCOPE}data/large.json`);
  expect(await serving.versionOf('page')).toBe(one.id);
});

describe('taking up a version', () => {
  test('leaves a page open on the version it was opened with, workers it starts included', async () => {
    const { store, two, open, ask, serving } = await twoVersions();
    await open('', 'old page');
    await takeUp(two, store, ['old page']);
    expect(await (await ask('search/names.json', 'old page')).text()).toBe('names one');
    await ask('search/names.json', 'old page', 'old worker');
    expect(await (await ask('search/names.json', 'old worker')).text()).toBe('names one');
    expect(await (await open('', 'new page')).text()).toBe('first two');
    expect(await (await ask('search/names.json', 'new page')).text()).toBe('names two');
    const restarted = serve(store);
    expect(await restarted.versionOf('old page')).toBe(await serving.versionOf('old page'));
  });

  test('gives a page that was open before there was a worker the version before', async () => {
    const { store, one, two, serving } = await twoVersions();
    await takeUp(two, store, ['first page ever']);
    expect(await serving.versionOf('first page ever')).toBe(one.id);
    expect(await serving.versionOf('later page')).toBe(two.id);
  });

  test('is not done by a worker that starts, unless it was asked for or there is nothing else', async () => {
    const { store, two } = await twoVersions();
    expect(await shouldTakeUp(two, store)).toBe(false);
    await store.setTakenUp(two.id);
    expect(await shouldTakeUp(two, store)).toBe(true);
    expect(await shouldTakeUp(two, openStore(memoryCaches(), SCOPE))).toBe(true);
  });

  test('is offered to every page of another version', async () => {
    const { store, one, two, open, serving } = await twoVersions();
    await open('', 'old page');
    expect(await stateFor('old page', one, store, serving)).toEqual({
      serving: one,
      ready: undefined,
    });
    expect(await stateFor('old page', two, store, serving)).toEqual({ serving: one, ready: two });
    await takeUp(two, store, ['old page']);
    expect(await stateFor('old page', two, store, serving)).toEqual({ serving: one, ready: two });
    await open('', 'new page');
    expect(await stateFor('new page', two, store, serving)).toEqual({
      serving: two,
      ready: undefined,
    });
  });
});

test('a version that gave way to a job is not offered, and a page without one is told so', async () => {
  const { store, one, two, serving } = await twoVersions();
  await store.forget([], [two]);
  expect(await stateFor('page', two, store, serving)).toEqual({ serving: one, ready: undefined });
  const empty = openStore(memoryCaches(), SCOPE);
  expect(await stateFor('page', two, empty, serve(empty))).toEqual({
    serving: undefined,
    ready: undefined,
  });
});

describe('tidying', () => {
  test('keeps an older version while a page uses it, then drops it and keeps what is shared', async () => {
    const { caches, store, one, two, open } = await twoVersions();
    await open('', 'old page');
    await takeUp(two, store, ['old page']);
    const held = async () => (await (await caches.open(PACKS)).keys()).length;
    const packsBefore = await held();
    const restarted = () => serve(store);
    await tidy(two, store, restarted(), ['old page']);
    expect(await store.known(one.id)).toBeDefined();
    expect(await held()).toBe(packsBefore);
    await tidy(two, store, restarted(), []);
    expect(await store.known(one.id)).toBeUndefined();
    expect(await store.clients()).toEqual([]);
    expect(await store.missing(two.packs)).toEqual([]);
    const gone = one.packs.filter(
      ({ sha256 }) => !two.packs.some((pack) => pack.sha256 === sha256),
    );
    expect(gone.length).toBeGreaterThan(0);
    expect(await store.missing(gone)).toEqual(gone);
  });

  test('keeps the version in use when a newer one has not been taken up', async () => {
    const { store, one, two, serving } = await twoVersions();
    await tidy(two, store, serving, []);
    expect(await store.known(one.id)).toBeDefined();
  });

  test('forgets what closed pages were of and remembers what open ones are of', async () => {
    const { store, two, open } = await twoVersions();
    await open('', 'open page');
    await open('', 'closed page');
    await tidy(two, store, serve(store), ['open page']);
    expect(await store.clients()).toEqual(['open page']);
  });

  test('keeps what a page is of that was answered and is not listed as open yet', async () => {
    const { store, one, two, open, serving } = await twoVersions();
    await open('', 'page on its way');
    await takeUp(two, store, ['page on its way']);
    await tidy(two, store, serving, []);
    expect(await store.clients()).toEqual(['page on its way']);
    expect(await store.known(one.id)).toBeDefined();
  });

  test('does nothing where its own version is not known', async () => {
    const { store, one, two, serving } = await twoVersions();
    await store.forget([], [two]);
    await tidy(two, store, serving, []);
    expect(await store.known(one.id)).toBeDefined();
  });

  test('never touches a version that began later', async () => {
    const { store, one, two, serving } = await twoVersions();
    await tidy(one, store, serving, []);
    expect(await store.known(two.id)).toBeDefined();
    expect(await store.missing(two.packs)).toEqual([]);
  });
});

test('two sites on one host keep apart', async () => {
  const { caches } = await twoVersions();
  const neighbour = openStore(caches, 'https://reference.example/');
  expect(await neighbour.current()).toBeUndefined();
  await neighbour.setCurrent('x');
  await neighbour.forget([], []);
  expect(await openStore(caches, SCOPE).current()).not.toBe('x');
  expect((await (await caches.open(PACKS)).keys()).length).toBeGreaterThan(0);
});
