import { saveVersion } from './install.ts';
import type { Version } from './manifest.ts';
import type { ToPage, ToWorker } from './messages.ts';
import { isWorkerFile, pathFrom } from './paths.ts';
import { openServing } from './serving.ts';
import { openStore } from './store.ts';
import { shouldTakeUp, stateFor, takeUp, tidy } from './turnover.ts';

/** The version this worker brings, written in when the site is built. */
declare const SITE_VERSION: Version;

const worker = self as unknown as ServiceWorkerGlobalScope;
const version = SITE_VERSION;
const scope = worker.registration.scope;
const store = openStore(worker.caches, scope);
const serving = openServing(store, scope, (request) => fetch(request));

/** Progress is told in steps of this share of the whole. */
const PROGRESS_STEP = 0.01;

worker.addEventListener('install', (event) => event.waitUntil(install()));
worker.addEventListener('activate', (event) => event.waitUntil(activate()));

worker.addEventListener('fetch', (event) => {
  const { request, clientId, resultingClientId } = event;
  const path = pathFrom(scope, request.url);
  if (request.method !== 'GET' || path === undefined || isWorkerFile(path)) return;
  event.respondWith(serving.answer({ request, clientId, resultingClientId }));
});

worker.addEventListener('message', (event) => {
  const message = event.data as ToWorker;
  if (message.type === 'take-up') event.waitUntil(askedToTakeUp());
  if (message.type === 'state' && event.source) event.waitUntil(tellState(event.source as Client));
});

async function install(): Promise<void> {
  let told = 0;
  let bytes = 0;
  await store.addKnown({ version, since: Date.now() });
  try {
    await saveVersion(version, scope, store, {
      fetch: (address) => fetch(address, { credentials: 'same-origin' }),
      onProgress(now) {
        bytes = now;
        if (Math.abs(now - told) < PROGRESS_STEP * version.bytes && now !== version.bytes) return;
        told = now;
        void tellPages({ type: 'progress', version, bytes });
      },
    });
  } catch (failure) {
    const full = failure instanceof DOMException && failure.name === 'QuotaExceededError';
    await tellPages({ type: 'cut', version, bytes, full });
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
  await store.setTakenUp(version.id);
  if (worker.serviceWorker.state === 'installed') return worker.skipWaiting();
  await takeUp(version, store, await servedClients());
  await tellPages({ type: 'taken-up', version });
}

async function tellState(client: Client): Promise<void> {
  const state: ToPage = { type: 'state', ...(await stateFor(client.id, version, store, serving)) };
  client.postMessage(state);
  if (worker.serviceWorker.state === 'activated')
    await tidy(version, store, serving, await openClients());
}

const servedClients = async () => (await worker.clients.matchAll({ type: 'all' })).map(idOf);
const openClients = async () =>
  (await worker.clients.matchAll({ type: 'all', includeUncontrolled: true })).map(idOf);
const idOf = ({ id }: Client) => id;

async function tellPages(message: ToPage): Promise<void> {
  const pages = await worker.clients.matchAll({ type: 'window', includeUncontrolled: true });
  for (const page of pages) if (page.url.startsWith(scope)) page.postMessage(message);
}
