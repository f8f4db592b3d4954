import { currentName, type FormerNames } from '../former/index.ts';

/** One pack of a version. */
export interface PackInfo {
  /** Path from the site's base, as in offline/packs/pages-1f2e….pack. */
  readonly url: string;
  /** Length of the download, which is kept as it came, bytes. */
  readonly bytes: number;
  /** First 32 digits of the SHA-256 of the download, lower-case hexadecimal. */
  readonly sha256: string;
  /** Pages among its files. */
  readonly pages: number;
  readonly files: number;
  /** Entry id of the one system that all of it belongs to; absent where all need it. */
  readonly system?: string;
}

/** A version of the site as its worker saves it. */
export interface Version {
  /** Hash of everything in the version but its date: two builds of the same site share it. */
  readonly id: string;
  /** The version as readers are told it. */
  readonly version: string;
  /** Date of the version, YYYY-MM-DD. */
  readonly date: string;
  /** The newest release of the firm that it holds; absent where the firm has made none. */
  readonly release?: string;
  /** Pages among the files. */
  readonly pages: number;
  readonly files: number;
  /** Sum of the packs' downloads, bytes. */
  readonly bytes: number;
  /** Whether it is so large that readers choose which systems to keep. */
  readonly choosable: boolean;
  /** What its entries were called before; absent from versions made before any was renamed. */
  readonly former?: FormerNames;
  readonly packs: readonly PackInfo[];
}

/** What dist/offline/manifest.json says: a version, and the files of each pack. */
export interface Manifest extends Omit<Version, 'packs'> {
  readonly packs: readonly (Omit<PackInfo, 'files'> & { readonly files: readonly string[] })[];
}

/** A version without the names of its files, as the worker carries it. */
export function versionOf(manifest: Manifest): Version {
  return {
    ...manifest,
    packs: manifest.packs.map(({ files, ...pack }) => ({ ...pack, files: files.length })),
  };
}

/**
 * Packs of a version that a device keeps.
 * @param leftOut systems whose packs its reader does not want
 */
export function packsKept(version: Version, leftOut: ReadonlySet<string>): readonly PackInfo[] {
  const names = leftOutIn(version, leftOut);
  return version.packs.filter(({ system }) => !system || !names.has(system));
}

/** The systems left out by the names that a version has for them. */
export const leftOutIn = (
  { former = {} }: Pick<Version, 'former'>,
  leftOut: ReadonlySet<string>,
): ReadonlySet<string> =>
  new Set([...leftOut].map((system) => currentName(former, 'systems', system)));

/** What some packs come to together. */
export function sumOf(packs: readonly PackInfo[]): Amount {
  const sum = (of: (pack: PackInfo) => number) => packs.reduce((all, pack) => all + of(pack), 0);
  return {
    pages: sum(({ pages }) => pages),
    files: sum(({ files }) => files),
    bytes: sum(({ bytes }) => bytes),
  };
}

/** So many pages among so many files of so many bytes. */
export interface Amount {
  readonly pages: number;
  readonly files: number;
  readonly bytes: number;
}

/**
 * The system that a file belongs to and that may be left out: what lies below its page, and
 * what its job needs. Its own page with wiring and readings belongs to all and is always kept.
 * @param path from the site's base
 */
export const systemOf = (path: string): string | undefined =>
  /^systems\/([^/]+)\/[^/]+\/./.exec(path)?.[1] ?? /^job\/([^/]+)\.(?:json|svg)$/.exec(path)?.[1];

/** Whether a file is a page a reader can open; the not-found page is not. */
export const isPage = (path: string): boolean => path.endsWith('.html') && path !== NOT_FOUND_PAGE;

/** The page that answers for addresses that hold nothing. */
export const NOT_FOUND_PAGE = '404.html';

/** The file that says which version a page is of; the worker answers for it from what it knows. */
export const VERSION_FILE = 'version.json';
