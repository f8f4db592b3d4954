import { CORE_FUNCTIONS, FUNCTION_IDS, type FunctionCounts } from './functions.ts';
import { setOf } from './sets.ts';

/** What a reader asks the planner. */
export interface CoreRequest {
  readonly counts: FunctionCounts;
  /** Whether a blue core may be a line, sleeved brown. */
  readonly blueAsLive: boolean;
  /** Id of the cable that is there already; null where one is to be chosen. */
  readonly there: string | null;
}

export const NOTHING_ASKED: CoreRequest = { counts: {}, blueAsLive: true, there: null };

/** A request as the fragment of an address: `live=1&neutral=1&earth=1`. */
export function fragmentOf({ counts, blueAsLive, there }: CoreRequest): string {
  const parts = FUNCTION_IDS.flatMap((id) => {
    const count = counts[id] ?? 0;
    return count > 0 ? [`${id}=${count}`] : [];
  });
  if (!blueAsLive) parts.push('blue=neutral');
  if (there !== null) parts.push(`there=${there}`);
  return parts.join('&');
}

/** A request read from an address, and what of the address could not be read. */
export interface ReadRequest {
  readonly request: CoreRequest;
  readonly problems: readonly string[];
}

/** Longest fragment that is read, in characters: several times the longest that is made. */
const MOST_FRAGMENT = 300;

/**
 * Reads a request from an address's fragment, with or without its `#`. What is unknown or out
 * of bounds is left out and named; nothing in an address can make it throw.
 */
export function readFragment(hash: string): ReadRequest {
  const text = hash.replace(/^#/, '');
  // A place on the page is no request.
  if (!text.includes('=')) return { request: NOTHING_ASKED, problems: [] };
  if (text.length > MOST_FRAGMENT) {
    return { request: NOTHING_ASKED, problems: ['The address is too long to be a request.'] };
  }
  const counts: Partial<Record<(typeof FUNCTION_IDS)[number], number>> = {};
  const problems: string[] = [];
  let blueAsLive = true;
  let there: string | null = null;
  for (const [key, value] of new URLSearchParams(text)) {
    const id = FUNCTION_IDS.find((known) => known === key);
    if (id) {
      const { title, most } = CORE_FUNCTIONS[id];
      if (/^[0-9]$/.test(value) && Number(value) <= most) counts[id] = Number(value);
      else problems.push(`${title}: 0 to ${most}, not “${value.slice(0, 20)}”.`);
    } else if (key === 'blue' && value === 'neutral') blueAsLive = false;
    else if (key === 'there' && setOf(value)) there = value;
    else problems.push(`“${key.slice(0, 20)}=${value.slice(0, 20)}” is no part of a request.`);
  }
  return { request: { counts, blueAsLive, there }, problems };
}
