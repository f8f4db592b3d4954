/** A system to begin a job with, as the page's own list gives it. */
export interface SystemChoice {
  readonly id: string;
  /** Ids it had before. */
  readonly formerly: readonly string[];
  readonly title: string;
  readonly summary: string;
  readonly wiring: number;
  /** Mode in which a job begins. */
  readonly mode: string;
  /** Everything it may be looked for by, in lower case. */
  readonly words: string;
}

/** The systems of the page's list, in its order. */
export const systemsIn = (list: ParentNode): SystemChoice[] =>
  [...list.querySelectorAll<HTMLElement>('[data-system]')].map((entry) => ({
    id: entry.dataset.system ?? '',
    formerly: entry.dataset.formerly?.split(' ') ?? [],
    title: entry.querySelector('strong')?.textContent?.trim() ?? '',
    summary: entry.querySelector('span')?.textContent?.trim() ?? '',
    wiring: Number(entry.dataset.wiring),
    mode: entry.dataset.mode ?? '',
    words: `${entry.textContent} ${entry.dataset.words}`.toLowerCase(),
  }));

/** The id that a system has now; the one given where the list has none that was ever called so. */
export const idNow = (systems: readonly SystemChoice[], id: string): string =>
  systems.find((system) => system.id === id || system.formerly.includes(id))?.id ?? id;

/** Systems that hold every word of a query. */
export function systemsFor(systems: readonly SystemChoice[], query: string): SystemChoice[] {
  const words = query.toLowerCase().split(/\s+/).filter(Boolean);
  return systems.filter((system) => words.every((word) => system.words.includes(word)));
}
