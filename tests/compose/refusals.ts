import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';

const pathOf = (file: string) => fileURLToPath(new URL(file, import.meta.url));

/** Reasons and counts of a kept list. */
export function countsIn(file: string): ReadonlyMap<string, number> {
  const rows = readFileSync(pathOf(file), 'utf8').matchAll(/^\| ([^|]+?) \| (\d+) \|/gm);
  return new Map([...rows].map(([, reason, count]) => [reason!, Number(count)]));
}

/** Compares a text with the one kept, or writes it with UPDATE_TABLES=1, never in CI. */
export function heldTo(file: string, text: string): void {
  if (process.env.UPDATE_TABLES && !process.env.CI) writeFileSync(pathOf(file), text);
  expect(text).toBe(readFileSync(pathOf(file), 'utf8'));
}
