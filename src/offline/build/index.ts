/** Writing what phones save of a built site: the door to this room's build half. */
export type { Effects } from './effects.ts';
export { type Built, writeOfflinePacks } from './write-packs.ts';
