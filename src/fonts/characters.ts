const range = (first: number, last: number): string =>
  Array.from({ length: last - first + 1 }, (_, i) => String.fromCodePoint(first + i)).join('');

/**
 * Characters of the served face: ASCII, Latin-1 and the marks of English print. More than the
 * pages use today: a firm's names and words come on top.
 */
export const LETTERS = `${range(0x20, 0x7e)}${range(0xa0, 0xac)}${range(0xae, 0xb4)}${range(0xb6, 0xff)}Œœ–—‘’‚“”„•…‹›⁄€™−`;

/** Signs that the served face has not; a second one fills them in. */
export const SIGNS = 'µΩωΔπ√≈≠≤≥∞←↑→↓✓✗⁰⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉ŴŵŶŷ';
