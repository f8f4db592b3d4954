/**
 * Whether prose asks for a reading that may be made with the supply on. It asks too often rather
 * than too seldom: what is read dead carries the caution as well.
 */
export const ordersReading = (prose: string): boolean =>
  /\b(read|measure|readings?|volts)\b/i.test(prose);

/** Whether prose, or an item's place, leads to a hot-water cylinder. */
export const isAtCylinder = (text: string): boolean => /\bcylinders?\b/i.test(text);
