/**
 * Anchor on the page under which a terminal's readings stand, without the `#`.
 * @param id a terminal, as in `E1.call feed`, which gives `terminal-E1-call-feed`.
 */
export const terminalAnchor = (id: string): string =>
  `terminal-${id.replace(/[^A-Za-z0-9]+/g, '-')}`;
