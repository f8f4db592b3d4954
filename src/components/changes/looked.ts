/** Up to which release this phone’s owner has looked, as the browser keeps it. */
export interface Looked {
  /** Release from which on what is dangerous waits to be read: what came before never waited. */
  readonly from: string;
  /** Newest release whose changes were looked at. */
  readonly looked: string;
  /** Dangerous changes read, as 2026.12/1f2e3d4c. */
  readonly read: readonly string[];
}

/** A name stands for one shape for good: another shape is kept under another name. */
const KEY = 'proveline.releases';

/** What is kept; nothing where no release was met yet, or storage is closed to us. */
export function readLooked(): Looked | undefined {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? 'null');
    if (typeof kept !== 'object' || kept === null) return undefined;
    const { from, looked, read } = kept as Record<string, unknown>;
    if (typeof from !== 'string' || typeof looked !== 'string') return undefined;
    const ids = Array.isArray(read) ? read.filter((one) => typeof one === 'string') : [];
    return { from, looked, read: ids };
  } catch {
    return undefined;
  }
}

/** Keeps it; a browser that refuses shows the same again another time. */
export function writeLooked(looked: Looked): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(looked));
  } catch {
    // Private windows refuse storage; the page works without it.
  }
}

/** Dangerous changes that wait, by which the home page’s early script keeps their room. */
const UNREAD = 'proveline.unread';

/** Keeps what waits to be read. */
export function writeUnread(keys: readonly string[]): void {
  try {
    if (keys.length === 0) localStorage.removeItem(UNREAD);
    else localStorage.setItem(UNREAD, JSON.stringify(keys));
  } catch {
    // As above.
  }
}

/** Remembers the first release that this phone meets: what came before is news to nobody. */
export function meetRelease(name: string): void {
  if (!readLooked()) writeLooked({ from: name, looked: name, read: [] });
}
