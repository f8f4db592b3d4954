/** What a firm hands out beside the site: labels, a printed pack, what changed: the door to this room. */

export { factsOf } from './facts.ts';
export { formerFiles } from './former-pages.ts';
export { hasEarlier, NOTE_FILE, ReleaseNote, releaseNote, takeEarlier } from './release-note.ts';
export { type EarlierBuild, readBuild } from './since.ts';
