import { bringPack, type InstallEffects, noteContents, saveVersion } from './install.ts';
import { type PackInfo, packsKept, sumOf, type Version } from './manifest.ts';
import { holdingOf, isNoted, lostPacks, mend } from './mending.ts';
import type { ToPage, ToWorker } from './messages.ts';
import { isWorkerFile, pathFrom } from './paths.ts';
import { openReader } from './reading.ts';
import { freeBytes, isFull } from './room.ts';
import { openServing } from './serving.ts';
import { openStore } from './store.ts';
import { shouldTakeUp, stateFor, takeUp, tidy } from './turnover.ts';

/** The version this worker brings, written in when the site is built. */
declare const SITE_VERSION: Version;

const worker = self as unknown as ServiceWorkerGlobalScope;
const version = SITE_VERSION;
const scope = worker.registration.scope;
const store = openStore(worker.caches, scope);
const effects: InstallEffects = {
  // What is kept here need not stand in the browser's own cache too.
  fetch: (address) => fetch(address, { credentials: 'same-origin', cache: 'no-store' }),
  free: () => freeBytes(worker.navigator.storage),
};
const reader = openReader(store, (pack) => bringPack(pack, scope, store, effects.fetch));
const serving = openServing(store, reader, scope, (request) => fetch(request));
const stopping = new AbortController();

/** Progress is told in steps of this share of the whole. */
const PROGRESS_STEP = 0.01;

worker.addEventListener('install', (event) => event.waitUntil(save()));
worker.addEventListener('activate', (event) => event.waitUntil(activate()));

worker.addEventListener('fetch', (event) => {
  const { request, clientId, resultingClientId } = event;
  const path = pathFrom(scope, request.url);
  if (request.method !== 'GET' || path === undefined || isWorkerFile(path)) return;
  event.respondWith(serving.answer({ request, clientId, resultingClientId }));
});

worker.addEventListener('message', (event) => {
  const message = event.data as ToWorker;
  const page = event.source as Client | null;
  switch (message.type) {
    case 'take-up':
      event.waitUntil(askedToTakeUp());
      break;
    case 'state':
      if (page) event.waitUntil(tellState(page));
      break;
    case 'check':
      if (page) event.waitUntil(check(page));
      break;
    case 'leave-out':
      if (page) event.waitUntil(leaveOut(page, message.systems));
      break;
    case 'stop-saving':
      stopping.abort();
  }
});

/** Saves the version this worker brings. For want of room it leaves nothing behind. */
async function save(): Promise<void> {
  const kept = sumOf(packsKept(version, await store.leftOut()));
  const told: Version = { ...version, bytes: kept.bytes };
  let toldBytes = 0;
  let bytes = 0;
  await store.addKnown({ version, since: Date.now() });
  try {
    await saveVersion(version, scope, store, {
      ...effects,
      signal: stopping.signal,
      onProgress(now) {
        bytes = now;
        if (Math.abs(now - toldBytes) < PROGRESS_STEP * kept.bytes && now !== kept.bytes) return;
        toldBytes = now;
        void tellPages({ type: 'progress', version: told, bytes });
      },
    });
  } catch (failure) {
    const full = isFull(failure);
    if (full && (await store.current()) !== version.id) await store.forget([], [version]);
    await tellPages({ type: 'cut', version: told, bytes, full });
    throw failure;
  }
}

async function activate(): Promise<void> {
  const takes = await shouldTakeUp(version, store);
  if (takes) await takeUp(version, store, await servedClients());
  await tidy(version, store, serving, await openClients());
  await worker.clients.claim();
  if (takes) await tellPages({ type: 'taken-up', version });
}

/** A waiting worker first becomes the active one, and takes up its version as it does so. */
async function askedToTakeUp(): Promise<void> {
  if (!(await bringsWhole())) return;
  await store.setTakenUp(version.id);
  if (worker.serviceWorker.state === 'installed') return worker.skipWaiting();
  await takeUp(version, store, await servedClients());
  await tellPages({ type: 'taken-up', version });
}

/** Whether this worker's version is all here; what gave way to a job or is lost is fetched first. */
async function bringsWhole(): Promise<boolean> {
  if ((await store.known(version.id)) && (await lostPacks(version, store)).length === 0)
    return true;
  try {
    await save();
    serving.forgetIndexes();
    return true;
  } catch {
    return false;
  }
}

/** Tells a page how things stand, then mends what is lost and tells it again. */
async function tellState(page: Client, thorough = false): Promise<void> {
  await restoreState();
  const lost = await say(page, thorough);
  if (worker.serviceWorker.state === 'activated')
    await tidy(version, store, serving, await openClients());
  if (lost.length === 0) return;
  await mendServed(page, lost);
  await say(page);
}

async function say(page: Client, thorough = false): Promise<PackInfo[]> {
  const state = await stateFor(page.id, version, store, serving);
  const lost = state.serving ? await lostPacks(state.serving, store, thorough) : [];
  const holding = state.serving && (await holdingOf(state.serving, lost, store));
  const message: ToPage = { type: 'state', ...state, holding };
  page.postMessage(message);
  return lost;
}

async function mendServed(page: Client, lost: readonly PackInfo[]): Promise<void> {
  const { serving: served } = await stateFor(page.id, version, store, serving);
  if (!served) return;
  try {
    await mend(served, lost, scope, store, effects);
  } catch {
    // Without a signal, or with a server that has gone on: the page says what is missing.
  }
  serving.forgetIndexes();
}

/** After the browser lost the state but not the worker, the worker's own version is the one. */
async function restoreState(): Promise<void> {
  if (worker.serviceWorker.state !== 'activated') return;
  const current = await store.current();
  const known = current && (await store.known(current));
  if (known && (await isNoted(known.version, store))) return;
  if (!known) {
    await store.addKnown({ version, since: Date.now() });
    await takeUp(version, store, []);
  }
  await noteContents(known ? known.version : version, store);
  serving.forgetIndexes();
}

async function check(page: Client): Promise<void> {
  if (!(await store.known(version.id))) await bringsWhole();
  await tellState(page, true);
}

/** Gives up what the reader leaves out, and fetches what is wanted again. */
async function leaveOut(page: Client, systems: readonly string[]): Promise<void> {
  await store.setLeftOut(systems);
  await store.forget([], []);
  serving.forgetIndexes();
  await tellState(page);
}

const servedClients = async () => (await worker.clients.matchAll({ type: 'all' })).map(idOf);
const openClients = async () =>
  (await worker.clients.matchAll({ type: 'all', includeUncontrolled: true })).map(idOf);
const idOf = ({ id }: Client) => id;

async function tellPages(message: ToPage): Promise<void> {
  const pages = await worker.clients.matchAll({ type: 'window', includeUncontrolled: true });
  for (const page of pages) if (page.url.startsWith(scope)) page.postMessage(message);
}
