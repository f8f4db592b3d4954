import { join, resolve } from 'node:path';
import { homeFolder } from '../folder/home.ts';

/* By itself, so that the page maker need not load the engine to learn where prose lies. */

/** Folder of entries, in the project and in a firm's folder. */
export const CONTENT = 'content';

/** Folder the entries are read from: PROVELINE_CONTENT, or `content` of Proveline's own folder. */
export const contentFolder = (): string =>
  resolve(process.env.PROVELINE_CONTENT ?? join(homeFolder(), CONTENT));

/** A firm's folder that is laid over the entries: PROVELINE_FIRM, or none. */
export const firmFolder = (): string | undefined =>
  process.env.PROVELINE_FIRM ? resolve(process.env.PROVELINE_FIRM) : undefined;
