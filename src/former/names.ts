/**
 * The name that an entry has now by one that it had before, for each folder of entries. Only
 * folders and names that there are; no name that an entry has now is a former one in its folder.
 */
export type FormerNames = Readonly<Record<string, Readonly<Record<string, string>>>>;

/**
 * Where a path names an entry, and the folder that the entry stands in. The name is all that
 * each pattern finds: what stands around it is looked at only.
 */
const PLACES: readonly (readonly [name: RegExp, folder: string | null])[] = [
  // Their own pages: the folder is the path's first part.
  [/(?<=^(?:systems|devices|symptoms|procedures|standards|glossary)\/)[a-z0-9-]+(?=\/|$)/, null],
  // A replacement: the item, then the device in its place.
  [/(?<=^systems\/[a-z0-9-]+\/replace\/[a-z]{1,2}[0-9]{1,2}-)[a-z0-9-]+(?=\/|$)/, 'devices'],
  // A sequence starts from a symptom.
  [/(?<=^systems\/[a-z0-9-]+\/sequences\/)[a-z0-9-]+(?=\/|$)/, 'symptoms'],
  // Open data, and what a job needs.
  [/(?<=^data\/systems\/)[a-z0-9-]+(?=\.json$)/, 'systems'],
  [/(?<=^job\/)[a-z0-9-]+(?=\.(?:json|svg)$)/, 'systems'],
];

const folderOf = (path: string, folder: string | null) => folder ?? path.split('/')[0]!;

/** The name that an entry has now; the one given where it is no former name. */
export function currentName(former: FormerNames, folder: string, name: string): string {
  const names = Object.hasOwn(former, folder) ? former[folder]! : {};
  return Object.hasOwn(names, name) ? names[name]! : name;
}

/** The names that an entry had before, in the order its author gives them. */
export const formerNamesOf = (former: FormerNames, folder: string, name: string): string[] =>
  Object.entries(former[folder] ?? {}).flatMap(([old, now]) => (now === name ? [old] : []));

/**
 * The path that a path leads to: every former name in it is the present one.
 * @param path from the site's base, without its leading slash: a page's, with or without a file
 * name, or that of a file of data
 */
export const currentPath = (former: FormerNames, path: string): string =>
  PLACES.reduce(
    (at, [name, folder]) =>
      at.replace(name, (found) => currentName(former, folderOf(at, folder), found)),
    path,
  );

/** Every path that leads to this one by a former name; none where no name in it was another. */
export const formerPaths = (former: FormerNames, path: string): string[] =>
  PLACES.reduce<readonly string[]>(
    (paths, [name, folder]) =>
      paths.flatMap((at) => {
        const found = name.exec(at)?.[0];
        if (found === undefined) return [at];
        const olds = formerNamesOf(former, folderOf(at, folder), found);
        return [at, ...olds.map((old) => at.replace(name, old))];
      }),
    [path],
  ).filter((one) => one !== path);
