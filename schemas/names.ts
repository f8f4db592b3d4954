import { z } from 'zod';
import { COLOUR_CODES, type ColourCode } from '../src/published/colours.ts';

const text = (what: string) => z.string(`${what} is text`).trim().min(1, `${what} is empty`);

/** A line of prose shown to readers. */
export const Line = text('this line');

/** An entry's identifier: its file name without the ending. */
export const Slug = z
  .string('an entry name is text')
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'an entry name is lower-case words joined by hyphens')
  .meta({ description: 'Identifier of another entry: its file name without .mdx' });

/** A mode of a system, by which its addresses name it. */
export const ModeName = Slug.meta({
  description: 'A word for the mode, as in standby or hot-water',
});

/** Reference designation of an item in a system, a letter code of IEC 81346-2 and a number. */
export const ItemReference = z
  .string()
  .regex(
    /^[A-Z]{1,2}[0-9]{1,2}$/,
    'an item reference is one or two capital letters and a number, as in Q1',
  )
  .meta({ description: 'Letter code (IEC 81346-2) and number, as in Q1' });

/** Reference designation of a cable: W and a number. */
export const CableReference = z
  .string()
  .regex(/^W[0-9]{1,2}$/, 'a cable reference is W and a number, as in W3')
  .meta({ description: 'W and a number, as in W3' });

/** Name of a terminal, by its function: letters, digits, spaces and hyphens. */
export const TerminalName = z
  .string()
  .regex(
    /^[A-Za-z0-9][A-Za-z0-9 -]*$/,
    'a terminal is named by its function, in letters, digits, spaces and hyphens',
  )
  .meta({ description: 'Terminal named by function, as in L, N, call feed' });

/** A terminal of an item, written ITEM.terminal. */
export const TerminalReference = z
  .string('a terminal reference is text, as in A1.call feed')
  .regex(
    /^[A-Z]{1,2}[0-9]{1,2}\.[A-Za-z0-9][A-Za-z0-9 -]*$/,
    'a terminal reference is ITEM.terminal, as in A1.call feed',
  )
  .meta({ description: 'ITEM.terminal, as in A1.call feed' });

/** A condition or an outcome of an item, written ITEM.name. */
export const ItemMember = z
  .string()
  .regex(
    /^[A-Z]{1,2}[0-9]{1,2}\.[a-z0-9][a-z0-9 -]*$/,
    'this is ITEM.name in lower case, as in B1.calling',
  );

/** Name of a condition, element, position or outcome inside a device. */
export const MemberName = z
  .string()
  .regex(/^[a-z0-9][a-z0-9 -]*$/, 'a name here is lower-case words and digits, as in end switch');

/** A core colour by its IEC 60757 letter code. */
export const Colour = z.enum(Object.keys(COLOUR_CODES) as [ColourCode, ...ColourCode[]], {
  error: () => `a colour is one of the IEC 60757 codes ${Object.keys(COLOUR_CODES).join(', ')}`,
});

/** A calendar date, YYYY-MM-DD. */
export const CalendarDate = z.iso.date({
  error: ({ input }) =>
    (typeof input === 'string' && missingDay(input)?.why) ||
    'a date is written YYYY-MM-DD, in quotation marks',
});

const monthName = (month: number) =>
  new Date(Date.UTC(2000, month - 1)).toLocaleDateString('en-GB', {
    month: 'long',
    timeZone: 'UTC',
  });

/**
 * Why a date in the right form names no day, and the nearest one there is where the month has
 * one; undefined where the form is another, or the day exists.
 */
export function missingDay(date: string): { why: string; nearest?: string } | undefined {
  const [, year, month, day] = (/^(\d{4})-(\d\d)-(\d\d)$/.exec(date) ?? []).map(Number);
  if (year === undefined || month === undefined || day === undefined) return undefined;
  if (month < 1 || month > 12)
    return { why: `there is no month ${date.slice(5, 7)}; after the year come month and day` };
  // Day 0 of the next month is the last of this one.
  const last = new Date(Date.UTC(year, month, 0)).getUTCDate();
  if (day >= 1 && day <= last) return undefined;
  const name = monthName(month);
  const start = date.slice(0, 8);
  if (day < 1) return { why: `${name} has no day 0; its first is the 1st`, nearest: `${start}01` };
  const when = month === 2 ? `${name} ${year}` : name;
  return {
    why: `there is no ${day} ${when}: ${last} ${name} is the last day of that month`,
    nearest: `${start}${last}`,
  };
}

/** Other words readers use for the same thing: searched, never shown as its name. */
export const Aliases = z
  .array(Line)
  .default([])
  .meta({ description: 'Other words for the same thing; searched' });

/** Names that an entry bore before it was renamed. */
export const FormerNames = z
  .array(Slug)
  .min(1, 'name at least one, or leave it out')
  .optional()
  .meta({
    description:
      'File names it had before, without .mdx: their addresses, and what phones keep under them, lead here',
  });
