/** What a result leads to. */
export type Kind =
  | 'system'
  | 'symptom'
  | 'device'
  | 'procedure'
  | 'standard'
  | 'word'
  | 'terminal'
  | 'item'
  | 'page';

/** Facets results may be narrowed by, with the values chosen or held. */
export const FACETS = ['kind', 'arrangement', 'control', 'feature'] as const;
export type Facet = (typeof FACETS)[number];
export type Facets = Readonly<Partial<Record<Facet, readonly string[]>>>;

/** Something that has a name of its own: an entry, or a terminal of a device. */
export interface Name {
  readonly name: string;
  readonly kind: Kind;
  /** Address from the site's base, as in devices/combi/#terminal-call-feed. */
  readonly url: string;
  /** Other words for it: the trade's, a firm's, abbreviations. */
  readonly aliases: readonly string[];
  /** What it is, in a line. */
  readonly about: string;
  /** What else its page’s prose says: each word once. */
  readonly text?: string;
  /** The device a terminal belongs to. */
  readonly of?: string;
  /** Facets of a system beside its kind. */
  readonly facets?: Facets;
}

/** A system's items, so that a reference such as E1.call feed is found in it. */
export interface Placed {
  readonly title: string;
  /** Address of the system's page from the site's base. */
  readonly url: string;
  /** Device of each item, by the address of its page from the base; and the item's place. */
  readonly items: Readonly<Record<string, { readonly device: string; readonly place: string }>>;
}

/** What dist/search/names.json says. */
export interface Named {
  readonly names: readonly Name[];
  readonly systems: readonly Placed[];
}

/** Names, and what dist/search/words.json says. */
export interface Vocabulary extends Named {
  /** Words of five letters or more in the pages, the most used first. */
  readonly words: readonly string[];
}

/** What a reader is told a result is. */
export const KIND_TITLES: Readonly<Record<Kind, string>> = {
  system: 'System',
  symptom: 'Symptom',
  device: 'Device',
  procedure: 'Procedure',
  standard: 'House standard',
  word: 'Word',
  terminal: 'Terminal',
  item: 'Item',
  page: 'Page',
};
