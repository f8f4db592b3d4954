import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Firm } from '../../schemas/index.ts';
import { baseOf } from '../publish/built-site.ts';

/** The path of the host that a site is built for: BASE_PATH, else the firm's, else the root. */
export function basePath(firm: Pick<Firm, 'base'> | undefined): string {
  // The page maker takes a variable of this name for the base, whatever it was set for.
  delete process.env.BASE_URL;
  return process.env.BASE_PATH ?? firm?.base ?? '/';
}

/** The host that a site is built for: SITE_URL, else the firm's; none where neither says. */
export const siteAddress = (firm: Pick<Firm, 'site'> | undefined): string | undefined =>
  process.env.SITE_URL ?? firm?.site;

/** The path that a built site says it is for; the root when it does not say. */
export const builtBase = async (root: string): Promise<string> =>
  baseOf(await readFile(join(root, 'index.html'), 'utf8')) ?? '/';
