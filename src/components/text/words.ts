import type { Review } from '../../../schemas/index.ts';
import { longDate } from '../../words/index.ts';

/**
 * Who read an entry and when, as prose says it: `reviewed by A. Name on 20 November 2026`. What
 * no person reviewed is never said to be: `checked 20 November 2026, not reviewed`.
 */
export function standingOf({
  review,
  checked,
}: {
  readonly review?: Review | undefined;
  readonly checked?: string | undefined;
}): string {
  if (review) return `reviewed by ${review.by} on ${longDate(review.on)}`;
  return checked === undefined ? 'not reviewed' : `checked ${longDate(checked)}, not reviewed`;
}

/** `a, b and c`. */
export function list(parts: readonly string[], last = 'and'): string {
  if (parts.length < 2) return parts.join('');
  return `${parts.slice(0, -1).join(', ')} ${last} ${parts.at(-1)}`;
}

/** `1 system`, `2 systems`. */
export const count = (n: number, one: string, many = `${one}s`): string =>
  `${n} ${n === 1 ? one : many}`;

/** A word as part of a class name, an id or an attribute value: `mid-position valve` → `mid-position-valve`. */
export const slug = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]+/g, '-');
