/** Most letters of a line, and of a text of several lines. */
export const MOST_LINE = 160;
export const MOST_TEXT = 2000;
/** Most photos of a job. */
export const MOST_PHOTOS = 12;
/** Largest picture kept, bytes: a dozen of them still fit a file. */
export const MOST_PICTURE_BYTES = 110_000;
