import type { FieldFile } from './file.ts';

/* Without the schemas: pages write files and read none. */

/** A file from the field as its text: one line, so that a messenger carries it whole. */
export const fieldText = (file: FieldFile): string => `${JSON.stringify(file)}\n`;

/** Name under which it is saved. */
export const fieldName = ({ kind, on, id }: FieldFile): string =>
  `${kind}-${on}-${id.slice(0, 8)}.json`;

/** The same for a messenger: what it says, in words, then the file. */
export const messageText = (words: readonly string[], file: FieldFile): string =>
  `${words.filter((line) => line !== '').join('\n')}\n\n${fieldText(file)}`;
