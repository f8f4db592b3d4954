import type { History, Sighting } from '../../diagnosis/index.ts';
import { beginningIn, specificationIn } from '../address.ts';

/** Where among the jobs the address points. */
export interface Route {
  /** Job to open; null for the list. */
  readonly job: string | null;
  /** Terminal at which a reading is to be entered in it; null where none is named. */
  readonly terminal: string | null;
  /** Whether a new job is to be begun. */
  readonly begin: boolean;
  /** System to begin with; null where it is to be picked. */
  readonly system: string | null;
  /** Complaint to begin with; null where it is to be asked. */
  readonly complaint: string | null;
  /** Arrangement from parts to begin with, or that the job named turned out to be; null for none. */
  readonly specification: string | null;
  /** What is seen there already. */
  readonly seen: readonly Sighting[];
  /** What the customer says of the time before; null where nobody has asked. */
  readonly history: History | null;
  /** What of the address cannot be read as seen. */
  readonly foreign: readonly string[];
}

const NOTHING = {
  job: null,
  terminal: null,
  begin: false,
  system: null,
  complaint: null,
  specification: null,
  seen: [],
  history: null,
  foreign: [],
} as const;

/**
 * Reads an address: `?complaint=id` and `?system=id` begin, with what is seen where it says so; `#new` begins,
 * `#all` lists, `#id` opens, `#id/E1.SL` opens to enter a reading there.
 */
export function routeOf({ search, hash }: Pick<Location, 'search' | 'hash'>): Route {
  // What is written with per cent signs is no name that a job has.
  const id = hash.slice(1);
  if (id === 'all') return NOTHING;
  const beginning = beginningIn(search);
  if (id === 'new' || (id === '' && beginning)) return { ...NOTHING, begin: true, ...beginning };
  const [, job = null, at = ''] = /^([A-Za-z0-9-]{1,64})(?:\/(.+))?$/.exec(id) ?? [];
  const specification = specificationIn(search);
  return { ...NOTHING, job, terminal: decoded(at) || null, specification };
}

/** Text of an address; none where it is no such text. */
function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return '';
  }
}

/** Leads this page to another place of its own. */
export const goTo = (hash: string): void => {
  location.hash = hash;
};

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
