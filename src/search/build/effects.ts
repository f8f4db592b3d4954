import { close, createIndex } from 'pagefind';
import { type FolderEffects, folders } from '../../folder/index.ts';

/** A file of the full-text index; its path from the index's own folder. */
export interface IndexFile {
  readonly path: string;
  readonly content: Uint8Array;
}

/** A page of the built site. */
export interface BuiltPage {
  /** Path of its file from the site's folder. */
  readonly path: string;
  readonly html: string;
}

/** What building the search index needs of the machine; tests give their own. */
export interface Effects extends FolderEffects {
  /** Full-text index of pages. @throws Error with the indexer's own words. */
  readonly indexPages: (pages: readonly BuiltPage[]) => Promise<readonly IndexFile[]>;
}

/** This machine's file system and the Pagefind indexer. */
export const machine: Effects = {
  ...folders,
  async indexPages(pages) {
    try {
      const { index, errors } = await createIndex();
      if (!index) throw new Error(errors.join('\n'));
      // Asked for at once: the indexer takes them one after another, and waits for none.
      const added = await Promise.all(
        pages.map(({ path, html }) => index.addHTMLFile({ sourcePath: path, content: html })),
      );
      const failed = added.flatMap(({ errors }) => errors);
      const made = await index.getFiles();
      failed.push(...made.errors);
      if (failed.length > 0) throw new Error(failed.join('\n'));
      return made.files;
    } finally {
      await close();
    }
  },
};
