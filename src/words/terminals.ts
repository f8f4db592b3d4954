/**
 * What a terminal is called where the name that ids, kept jobs and open data hold is not what the
 * trade says (common practice, no source).
 */
const SPOKEN: Readonly<Record<string, string>> = {
  'call feed': 'live to stat',
  'call return': 'switched live back',
  'call out': 'SL out',
};

/** A terminal's name as people say it: `SL`, `live to stat`, and `terminal 3` of a numbered one. */
export const terminalWords = (name: string): string =>
  SPOKEN[name] ?? (/^\d+$/.test(name) ? `terminal ${name}` : name);

/** The same where its item stands beside it, on a drawing or in a table: a bare number says enough. */
export const terminalMark = (name: string): string => SPOKEN[name] ?? name;
