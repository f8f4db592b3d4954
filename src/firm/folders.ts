import { resolve } from 'node:path';

/* By itself, so that the page maker need not load the engine to learn where prose lies. */

/** Folder of entries, in the project and in a firm's folder. */
export const CONTENT = 'content';

/** Folder the entries are read from: PROVELINE_CONTENT, or `content` where the command runs. */
export const contentFolder = (): string => resolve(process.env.PROVELINE_CONTENT ?? CONTENT);

/** A firm's folder that is laid over the entries: PROVELINE_FIRM, or none. */
export const firmFolder = (): string | undefined =>
  process.env.PROVELINE_FIRM ? resolve(process.env.PROVELINE_FIRM) : undefined;
