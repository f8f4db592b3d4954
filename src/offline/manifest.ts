/** One pack of a version. */
export interface PackInfo {
  /** Path from the site's base, as in offline/pages-1f2e….pack. */
  readonly url: string;
  /** Length of the download, bytes. */
  readonly bytes: number;
  /** SHA-256 of the download, lower-case hexadecimal. */
  readonly sha256: string;
}

/** A version of the site as its worker saves it. */
export interface Version {
  /** Hash of everything in the version: two builds of the same site share it. */
  readonly id: string;
  /** The version as readers are told it. */
  readonly version: string;
  /** Date of the version, YYYY-MM-DD. */
  readonly date: string;
  /** Pages among the files. */
  readonly pages: number;
  readonly files: number;
  /** Sum of the packs' downloads, bytes. */
  readonly bytes: number;
  readonly packs: readonly PackInfo[];
}

/** What dist/offline/manifest.json says: a version, and the files of each pack. */
export interface Manifest extends Omit<Version, 'packs'> {
  readonly packs: readonly (PackInfo & { readonly files: readonly string[] })[];
}

/** A version without the names of its files, as the worker carries it. */
export function versionOf(manifest: Manifest): Version {
  return {
    ...manifest,
    packs: manifest.packs.map(({ url, bytes, sha256 }) => ({ url, bytes, sha256 })),
  };
}

/** Whether a file is a page a reader can open; the not-found page is none. */
export const isPage = (path: string): boolean => path.endsWith('.html') && path !== NOT_FOUND_PAGE;

/** The page that answers for addresses that hold nothing. */
export const NOT_FOUND_PAGE = '404.html';
