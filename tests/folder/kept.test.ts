import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keptIn } from '../../src/folder/kept.ts';

const BYTES = Buffer.from('what was worked out');
let folder: string;
let told: string[];
const kept = () => keptIn(folder, (line) => told.push(line));
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kept-'));
  told = [];
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('results kept from build to build', () => {
  it('are there by their name, for another build too', () => {
    kept().write('a', BYTES);
    expect(kept().read('a')?.equals(BYTES)).toBe(true);
    expect(kept().read('b')).toBeUndefined();
    expect([readdirSync(folder), told]).toEqual([['a'], []]);
  });

  it.each([
    ['cut short', (file: string) => truncateSync(file, 40)],
    ['cut to nothing', (file: string) => truncateSync(file, 0)],
    ['of another make', (file: string) => writeFileSync(file, '{"tree": null}')],
    [
      'changed by one bit',
      (file: string) => {
        const bytes = readFileSync(file);
        bytes[bytes.length - 1]! ^= 1;
        writeFileSync(file, bytes);
      },
    ],
  ])('are told of and gone when a file is %s', (_, spoil) => {
    kept().write('a', BYTES);
    spoil(join(folder, 'a'));
    expect(kept().read('a')).toBeUndefined();
    expect(told).toHaveLength(1);
    expect(told[0]).toContain('worked out anew');
    expect(existsSync(join(folder, 'a'))).toBe(false);
    kept().write('a', BYTES);
    expect(kept().read('a')?.equals(BYTES)).toBe(true);
  });

  it('go when nobody asked for them in a month, and stay when read or made tomorrow', () => {
    const day = 24 * 3600 * 1000;
    for (const [name, days] of [
      ['old', -40],
      ['read', -40],
      ['tomorrow', 40],
    ] as const) {
      kept().write(name, BYTES);
      const time = new Date(Date.now() + days * day);
      utimesSync(join(folder, name), time, time);
    }
    kept().read('read');
    kept().prune();
    expect(readdirSync(folder).sort()).toEqual(['read', 'tomorrow']);
  });

  it('go at once where only some names are to be left', () => {
    for (const name of ['this', 'that']) kept().write(name, Buffer.from(name));
    kept().prune(new Set(['that']));
    expect(readdirSync(folder).sort()).toEqual(['that']);
  });
});
