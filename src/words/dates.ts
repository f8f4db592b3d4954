/** A calendar date as prose says it: `2026-11-20` → `20 November 2026`. */
export const longDate = (date: string): string => dateText(date, 'long');

/** The same where room is short: `20 Nov 2026`. */
export const shortDate = (date: string): string => dateText(date, 'short');

function dateText(date: string, month: 'long' | 'short'): string {
  const options = { day: 'numeric', month, year: 'numeric', timeZone: 'UTC' } as const;
  return new Date(`${date.slice(0, 10)}T00:00:00Z`).toLocaleDateString('en-GB', options);
}
