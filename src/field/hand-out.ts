import type { FieldFile } from './file.ts';
import { fieldName, fieldText, messageText } from './write.ts';

/* How a page hands a file out: nothing of it needs a signal, or a place to store. */

/** Saves a file where the browser saves what is loaded down. @returns what is said of it */
export function saveField(file: FieldFile): string {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([fieldText(file)], { type: 'application/json' }));
  link.download = fieldName(file);
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return `Saved as ${fieldName(file)}. Send it to whoever keeps these pages.`;
}

/** Copies a file as text for a messenger. @returns what is said of it */
export async function copyField(words: readonly string[], file: FieldFile): Promise<string> {
  try {
    await navigator.clipboard.writeText(messageText(words, file));
    return 'Copied. Paste it whole: the last line is the file.';
  } catch {
    return 'This browser does not let a page copy: save the file instead.';
  }
}

/** Whether the phone can share. */
export const canShare = (): boolean => typeof navigator.share === 'function';

/**
 * Hands something to the phone's own sheet.
 * @returns whether it went on, the reader closed the sheet, or the phone did not take it
 */
export async function share(what: ShareData): Promise<'shared' | 'closed' | 'refused'> {
  try {
    await navigator.share(what);
    return 'shared';
  } catch (error) {
    return error instanceof DOMException && error.name === 'AbortError' ? 'closed' : 'refused';
  }
}

/** Shares a file as text through the phone's own sheet. @returns what is said of it */
export async function shareField(
  title: string,
  words: readonly string[],
  file: FieldFile,
): Promise<string> {
  const handed = await share({ title, text: messageText(words, file) });
  if (handed === 'shared') return 'Shared.';
  // Whoever closes the sheet knows it.
  return handed === 'closed'
    ? ''
    : 'This phone did not take it: copy it as text, or save the file.';
}

/** Build of the site as a file names it; null where it cannot be told. */
export async function builtNow(base: string): Promise<FieldFile['build']> {
  try {
    const answer = await fetch(`${base}version.json`);
    const { version, date } = await answer.json();
    const known = /^[0-9a-f]{8}$/.test(version) && /^\d{4}-\d\d-\d\d$/.test(date);
    return known ? { version, date } : null;
  } catch {
    return null;
  }
}

/** The day where the reader is, YYYY-MM-DD. */
export function today(time = new Date()): string {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`;
}
