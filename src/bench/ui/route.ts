/** Where in the bench the address points. */
export interface Route {
  /** Job to open; null for the list. */
  readonly job: string | null;
  /** Whether a new job is to be begun. */
  readonly begin: boolean;
  /** System to begin with; null where it is to be picked. */
  readonly system: string | null;
}

/** Reads an address: `?system=id` begins, `#new` begins, `#all` lists, `#id` opens. */
export function routeOf({ search, hash }: Pick<Location, 'search' | 'hash'>): Route {
  const id = decodeURIComponent(hash.slice(1));
  if (id === 'all') return { job: null, begin: false, system: null };
  const system = new URLSearchParams(search).get('system');
  if (id === 'new' || (id === '' && system !== null)) return { job: null, begin: true, system };
  return { job: /^[A-Za-z0-9-]{1,64}$/.test(id) ? id : null, begin: false, system: null };
}

const KEY = 'proveline.job';

/** Remembers which job stood open; the page works without. */
export function rememberOpen(id: string | null): void {
  try {
    if (id === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, id);
  } catch {
    // Private windows refuse storage.
  }
}

/** The job that stood open when the page was last there. */
export function openBefore(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}
