import type { Review } from '../../schemas/index.ts';
import {
  type Draft,
  type Entries,
  type Entry,
  entriesByKind,
  entryKey,
  type Origin,
} from '../entries/index.ts';

/** An entry as a list of reviews shows it. */
export interface Reviewed {
  /** Path of its page from the site's base, as `systems/combi-two-wire/`. */
  readonly path: string;
  readonly title: string;
  /** Kind in a word, as `System`. */
  readonly kind: string;
  readonly origin: Origin;
  readonly review?: Review;
  /** Why nobody has reviewed it as it stands; absent where somebody has. */
  readonly draft?: Draft;
  /** Day on which it was last checked by the proofs and against its sources, YYYY-MM-DD. */
  readonly checked?: string;
}

type Reviewable = Entry<{ title: string; review?: Review | undefined; checked?: string }>;

/**
 * Every entry that has a page, with who reviewed it and when it is due again; the firm's first, its
 * drafts foremost. A module has none: it is read in the systems it is part of.
 */
export function reviewsOf(entries: Entries, drafts: ReadonlyMap<string, Draft>): Reviewed[] {
  return entriesByKind(entries)
    .flatMap(([id, kind, entry]) => {
      if (id === 'module') return [];
      const { data, origin, id: name } = entry as Reviewable;
      const { review, checked } = data;
      const draft = drafts.get(entryKey(kind.folder, name));
      return {
        path: `${kind.folder}/${name}/`,
        title: data.title,
        kind: kind.title,
        origin,
        ...(review ? { review } : {}),
        ...(draft ? { draft } : {}),
        ...(checked === undefined ? {} : { checked }),
      };
    })
    .sort(
      (a, b) =>
        Number(a.origin === 'reference') - Number(b.origin === 'reference') ||
        Number(!a.draft) - Number(!b.draft),
    );
}
