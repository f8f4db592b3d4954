/** Most letters of a line, and of a text of several lines. */
export const MOST_LINE = 160;
export const MOST_TEXT = 4000;
/** Most photos of a job. */
export const MOST_PHOTOS = 24;
