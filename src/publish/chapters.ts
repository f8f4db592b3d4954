/** Kinds of page in the order a reader of paper wants them, with their titles; others are left out. */
const TITLES: Readonly<Record<string, string>> = {
  about: 'About',
  procedures: 'Procedures',
  systems: 'Systems',
  symptoms: 'Complaints',
  standards: 'House standards',
  devices: 'Devices',
  glossary: 'Words',
};
const ORDER = Object.keys(TITLES);

/** Pages of one kind, as the contents group them. */
export interface Chapter<Page> {
  readonly title: string;
  readonly pages: readonly Page[];
}

const kindOf = (path: string) => path.split('/')[0]!;

/**
 * Pages for the pack, in the order of printing: lists and tools of the screen are left out.
 * @param pages addresses from the site's base, as `systems/combi-two-wire/`.
 * @param only last parts of addresses wanted, as `combi-two-wire`; all when empty.
 * @throws Error that names what no page is called, with the nearest names.
 */
export function pagesToPrint(pages: readonly string[], only: readonly string[]): string[] {
  const leaf = (path: string) => path.split('/').filter(Boolean).slice(0, 2).at(-1) ?? '';
  const printed = pages
    .filter((path) => path === 'about/' || (ORDER.includes(kindOf(path)) && isOnPaper(path)))
    .toSorted((a, b) => ORDER.indexOf(kindOf(a)) - ORDER.indexOf(kindOf(b)) || (a < b ? -1 : 1));
  if (only.length === 0) return printed;
  const unknown = only.filter((name) => !printed.some((path) => leaf(path) === name));
  if (unknown.length > 0)
    throw new Error(
      `No page is called ${unknown.join(', ')}. There are: ${printed.map(leaf).join(', ')}`,
    );
  return printed.filter((path) => only.includes(leaf(path)));
}

/** Pages for the pack by kind, in their order. */
export const chaptersOf = (pages: readonly string[]): Chapter<string>[] =>
  [...Map.groupBy(pages, kindOf)].map(([kind, own]) => ({ title: TITLES[kind]!, pages: own }));

/** An entry's own page; of a system, its sheet. */
const isOnPaper = (path: string): boolean =>
  path.startsWith('systems/') ? isSheet(path) : path.split('/').filter(Boolean).length === 2;

/** Whether entries are looked up by their titles: all but what is read from its beginning. */
export const isByTitle = ([first = '']: readonly string[]): boolean => kindOf(first) !== 'about';

/** Whether a page is laid out for paper by itself: a system's sheet. */
export const isSheet = (path: string): boolean => /^systems\/[^/]+\/sheet\/$/.test(path);
