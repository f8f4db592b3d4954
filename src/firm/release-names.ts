import type { Effects } from '../entries/index.ts';

/** Folder in a firm's folder that holds its releases, one file each. */
export const RELEASES = 'releases';

/**
 * Names of a firm's releases, in order of name: which there are is part of what a reader is shown,
 * so it is part of the version. The one being made, PROVELINE_RELEASING, is counted among them.
 */
export function releaseNames(firm: string | undefined, { list }: Pick<Effects, 'list'>): string[] {
  if (firm === undefined) return [];
  const kept = (list(`${firm}/${RELEASES}`) ?? []).flatMap(
    ({ name }) => /^([^.].*)\.json$/.exec(name)?.[1] ?? [],
  );
  const making = process.env.PROVELINE_RELEASING;
  return [...new Set([...kept, ...(making ? [making] : [])])].sort();
}
