/**
 * Has what a browser kept under former names kept under the present one. Where something is kept
 * there already that stands, and the rest is left where it is.
 * @param key name in the browser's storage
 * @param former names that it had before, the likeliest first
 */
export function takeOverKept(key: string, former: readonly string[]): void {
  try {
    for (const old of former) {
      const kept = localStorage.getItem(old);
      if (kept === null || localStorage.getItem(key) !== null) continue;
      localStorage.setItem(key, kept);
      localStorage.removeItem(old);
    }
  } catch {
    // Storage that is closed holds nothing; one that is full keeps it under its old name.
  }
}
