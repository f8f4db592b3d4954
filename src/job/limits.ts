/** Most letters of a line, and of a text of several lines. */
export const MOST_LINE = 160;
export const MOST_TEXT = 2000;
/** Most photos of a job. */
export const MOST_PHOTOS = 12;
/** Largest picture kept, bytes: a dozen of them still fit a file. */
export const MOST_PICTURE_BYTES = 110_000;
/** Longest fragment of the page of wiring as found: its marks, and readings beside them. */
export const MOST_FRAGMENT = 8100;
/** What such a fragment is made of: `as=` and sealed text, then `&r=` and more where readings are. */
export const FRAGMENT = /^as=[A-Za-z0-9_.-]+(&r=[A-Za-z0-9_.-]+)?$/;
/** Longest specification of an arrangement composed from parts, as its address has it. */
export const MOST_SPECIFICATION = 2000;
