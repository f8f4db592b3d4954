import { close, createIndex } from 'pagefind';
import { type FolderEffects, folders } from '../../folder/index.ts';

/** A file of the full-text index; its path from the index's own folder. */
export interface IndexFile {
  readonly path: string;
  readonly content: Uint8Array;
}

/** What building the search index needs of the machine; tests give their own. */
export interface Effects extends FolderEffects {
  /** Full-text index of the pages in a folder. @throws Error with the indexer's own words. */
  readonly indexPages: (folder: string) => Promise<readonly IndexFile[]>;
}

/** This machine's file system and the Pagefind indexer. */
export const machine: Effects = {
  ...folders,
  async indexPages(folder) {
    try {
      const { index, errors } = await createIndex();
      if (!index) throw new Error(errors.join('\n'));
      const added = await index.addDirectory({ path: folder });
      const made = await index.getFiles();
      const failed = [...added.errors, ...made.errors];
      if (failed.length > 0) throw new Error(failed.join('\n'));
      return made.files;
    } finally {
      await close();
    }
  },
};
