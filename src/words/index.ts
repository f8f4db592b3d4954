/** Words for what people read: the door to this room, which imports nothing. */
export { longDate, shortDate } from './dates.ts';
export { EXTRA_LOW_NO_EARTH, EXTRA_LOW_PAIR } from './extra-low.ts';
export { EARTH_FIRST, PART_VOLTS_WHY, READING_WORDS } from './readings.ts';
export { terminalMark, terminalWords } from './terminals.ts';
export { ANY_WORD, type FoundTerm, READ_FIELDS, TERMS, type Term, wrongTerms } from './terms.ts';

/**
 * What a symptom is called wherever it is met: the customer's words where its entry has them in
 * one line, else its title.
 */
export const symptomName = ({
  complaint,
  title,
}: {
  readonly complaint?: string | undefined;
  readonly title: string;
}): string => complaint ?? title;

/** A text with its first letter a capital. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** First letter in lower case, inside a sentence; an abbreviation or a terminal keeps its own. */
export const lowerFirst = (text: string): string =>
  /^(?:[A-Z][a-z]|A )/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
