/** Building the search index of a built site: the door to this room's build half. */
export type { Effects } from './effects.ts';
export { buildSearchIndex } from './write-index.ts';
