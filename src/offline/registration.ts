import type { ToPage, ToWorker } from './messages.ts';
import type { Status } from './status.ts';

/** The site's worker as a page uses it. */
export interface Offline {
  /** Has what is saved read and mended, and asks the site whether there is a newer version. */
  readonly check: () => Promise<void>;
  /** Takes up the version that is ready, and opens this page again at the same place. */
  readonly takeUp: () => void;
  /** Keeps the sequences, replacements and jobs of all systems but these, by entry id. */
  readonly leaveOut: (systems: readonly string[]) => void;
}

/** A page opened within this time of the last check does not check again. */
const CHECK_AFTER_MS = 10 * 60 * 1000;
/** First and longest wait before a cut saving is tried again. */
const RETRY_MS = { first: 15_000, longest: 10 * 60 * 1000 };
const LAST_CHECKED = 'proveline.last-checked';

/**
 * Registers the worker that keeps the site, follows what it does, and goes on with a cut
 * saving when there is a signal again.
 * @param base path of the site's base, ending in a slash
 * @param onChange told whenever the status is another
 */
export function keepOffline(base: string, onChange: (status: Status) => void): Offline {
  const workers: ServiceWorkerContainer | undefined = navigator.serviceWorker;
  let status: Status = { lastChecked: readLastChecked() };
  let registration: ServiceWorkerRegistration | undefined;
  let reloads = false;
  let retryMs = RETRY_MS.first;
  let retryTimer: ReturnType<typeof setTimeout> | undefined;

  const change = (changes: Partial<Status>) => {
    status = { ...status, ...changes };
    onChange(status);
  };
  const tell = (message: ToWorker) =>
    (registration?.waiting ?? registration?.active)?.postMessage(message);
  const checked = () => {
    const now = new Date();
    writeLastChecked(now);
    change({ lastChecked: now });
  };

  function heard({ data, source }: MessageEvent<ToPage>): void {
    switch (data.type) {
      case 'progress':
        change({ saving: { version: data.version, bytes: data.bytes } });
        break;
      case 'cut': {
        const { version, bytes, full } = data;
        change({ saving: { version, bytes, stopped: full ? 'no room' : 'no signal' } });
        if (!full) retryLater();
        break;
      }
      case 'state':
        heardState(data, source);
        break;
      case 'taken-up':
        if (reloads) location.reload();
        else tell({ type: 'state' });
    }
  }

  function heardState(
    { serving, ready, holding }: Extract<ToPage, { type: 'state' }>,
    from: MessageEventSource | null,
  ): void {
    const { saving } = status;
    const done = saving && !saving.stopped && saving.bytes >= saving.version.bytes;
    // A check that the worker in use began may end after a newer one has said it is ready.
    const newer = registration?.waiting;
    const offered = newer && from !== newer ? status.ready : ready;
    change({ serving, ready: offered, holding, ...(done ? { saving: undefined } : {}) });
    if (holding && holding.lost.files > 0) retryLater();
    else if (!saving?.stopped) retryMs = RETRY_MS.first;
  }

  function follow(worker: ServiceWorker | null): void {
    worker?.addEventListener('statechange', () => {
      if (worker.state !== 'installed' && worker.state !== 'activated') return;
      retryMs = RETRY_MS.first;
      change({ saving: undefined });
      tell({ type: 'state' });
    });
  }

  async function register(): Promise<void> {
    if (!workers) return;
    try {
      const found = await workers.register(`${base}sw.js`, { scope: base, updateViaCache: 'none' });
      if (found !== registration) {
        registration = found;
        follow(found.installing);
        found.addEventListener('updatefound', () => follow(found.installing));
      }
      if (!found.active) checked();
      tell({ type: 'state' });
    } catch (failure) {
      const refused = failure instanceof DOMException && failure.name === 'SecurityError';
      if (refused) change({ unable: 'refused' });
      else retryLater();
    }
  }

  async function check(): Promise<void> {
    if (!registration?.active) return register();
    tell({ type: 'check' });
    try {
      await registration.update();
      checked();
    } catch {
      // No answer: the date of the last check stays as it is, and says so.
    }
  }

  function retryLater(): void {
    clearTimeout(retryTimer);
    retryTimer = setTimeout(check, retryMs);
    retryMs = Math.min(2 * retryMs, RETRY_MS.longest);
  }

  async function start(workers: ServiceWorkerContainer): Promise<void> {
    workers.addEventListener('message', heard);
    workers.startMessages();
    addEventListener('online', () => void check());
    await register();
    const age = Date.now() - (status.lastChecked?.getTime() ?? 0);
    if (registration?.active && age > CHECK_AFTER_MS) await check();
  }

  if (workers) void start(workers);
  else change({ unable: isSecureContext ? 'no worker' : 'not secure' });

  return {
    check,
    takeUp() {
      reloads = true;
      tell({ type: 'take-up' });
    },
    leaveOut: (systems) => tell({ type: 'leave-out', systems }),
  };
}

/** Storage may be switched off: the date is then not kept. */
function readLastChecked(): Date | undefined {
  try {
    const text = localStorage.getItem(LAST_CHECKED);
    return text ? new Date(text) : undefined;
  } catch {
    return undefined;
  }
}

function writeLastChecked(time: Date): void {
  try {
    localStorage.setItem(LAST_CHECKED, time.toISOString());
  } catch {
    // As above.
  }
}
