/** What stands in the fragment of the page's address. */
export interface FoundAddress {
  /** Sealed text of the marks. */
  readonly marks: string | null;
  /** Job whose readings are held against them. */
  readonly job: string | null;
  /** Sealed text of readings that came with the link. */
  readonly readings: string | null;
  /** What of the fragment does not belong to this page; empty where all of it does. */
  readonly foreign: string;
}

const EMPTY: FoundAddress = { marks: null, job: null, readings: null, foreign: '' };

/**
 * Reads a fragment: `as=` the marks, `job=` a job, `r=` readings. Nothing is decoded but
 * what a browser or a messenger may have written as per cent signs.
 */
export function addressOf(fragment: string): FoundAddress {
  const text = fragment.replace(/^#/, '');
  if (text === '') return EMPTY;
  const parts = new Map(
    text.split('&').map((part) => {
      const at = part.indexOf('=');
      return at < 0 ? ([part, null] as const) : ([part.slice(0, at), part.slice(at + 1)] as const);
    }),
  );
  const known = ['as', 'job', 'r'].some((key) => parts.get(key) != null);
  if (!known) return { ...EMPTY, foreign: text };
  const job = parts.get('job') ?? null;
  return {
    marks: parts.get('as') ?? null,
    job: job !== null && /^[A-Za-z0-9-]{1,64}$/.test(job) ? job : null,
    readings: parts.get('r') ?? null,
    foreign: '',
  };
}

/** Writes a fragment, without its `#`; empty where there is nothing to say. */
export const fragmentOf = ({ marks, job, readings }: Omit<FoundAddress, 'foreign'>): string =>
  [
    ...(marks === null ? [] : [`as=${marks}`]),
    ...(job === null ? [] : [`job=${job}`]),
    ...(readings === null ? [] : [`r=${readings}`]),
  ].join('&');
