/** A job left open, as the home page lists it. */
export interface Visit {
  readonly id: string;
  readonly title: string;
  /** Id of its system; null while nobody knows it, absent from lists of older pages. */
  readonly system?: string | null;
  /** Where it stands: what was found so far, when it was last touched, its system. */
  readonly stands: string;
  /** Its next act; empty where the job has to be opened to know it. */
  readonly next: string;
  /** When the job was changed last, ISO 8601: a next act is of one state of a job. */
  readonly changed: string;
}

const KEY = 'proveline.visits';

/** Jobs left open on this phone, the last touched first; null where nobody has listed them yet. */
export function readVisits(): Visit[] | null {
  try {
    const kept = localStorage.getItem(KEY);
    const list: unknown = kept === null ? null : JSON.parse(kept);
    return Array.isArray(list) ? list.filter(isVisit) : null;
  } catch {
    return null;
  }
}

/** Keeps the list beside the jobs, so that the home page shows it with no engine. */
export function keepVisits(visits: readonly Visit[]): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(visits));
  } catch {
    // Private windows refuse storage; the jobs are listed where they are kept.
  }
}

function isVisit(value: unknown): value is Visit {
  if (typeof value !== 'object' || value === null) return false;
  const { id, title, stands, next, changed } = value as Record<string, unknown>;
  return (
    /^[A-Za-z0-9-]{1,64}$/.test(String(id)) &&
    [title, stands, next, changed].every((text) => typeof text === 'string')
  );
}
