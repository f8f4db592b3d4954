import { withSearch } from './wording.ts';

const KEY = 'proveline.searches';

/** Searches made on this device, the newest first; none where storage is closed to us. */
export function recentSearches(): string[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    return Array.isArray(kept) ? kept.filter((each) => typeof each === 'string') : [];
  } catch {
    return [];
  }
}

/** Keeps a search on this device. */
export function keepSearch(query: string): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(withSearch(recentSearches(), query)));
  } catch {
    // Storage is full or closed: the search is made all the same.
  }
}
