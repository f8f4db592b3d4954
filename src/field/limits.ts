/** Version of the shape of what comes from the field; another shape takes the next number. */
export const FIELD_VERSION = 1;
/** Largest file from the field, bytes: a visit with the photographs of one job. */
export const MOST_FIELD_BYTES = 2 * 1024 * 1024;
/** Most letters of what was seen. */
export const MOST_SEEN = 1000;
/** Most acts of one visit. */
export const MOST_ACTS = 2000;
/** Longest visit whose minutes are taken for time on site: longer ones were left open. */
export const MOST_MINUTES = 480;
