import { existsSync, readdirSync } from 'node:fs';

/** Folder of the built site the tests are about: SITE_FOLDER, or dist, built before they run. */
export const DIST = process.env.SITE_FOLDER ?? 'dist';

/**
 * Paths of all files of the built site, from its root, in order.
 * @throws Error that says to build where there is no site
 */
export function filesOfSite(): string[] {
  if (!existsSync(`${DIST}/index.html`))
    throw new Error(`There is no built site in ${DIST}/: run npm run build before these tests`);
  return readdirSync(DIST, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => `${parentPath}/${name}`.slice(DIST.length + 1))
    .toSorted();
}
