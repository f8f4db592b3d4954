import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Named } from '../../src/search/names.ts';
import { findReference } from '../../src/search/reference.ts';
import { DIST } from '../support/site-folder.ts';
import { builtPage, pagesOf, readManifest } from './harness.ts';

const vocabulary: Named = JSON.parse(readFileSync(join(DIST, 'search/names.json'), 'utf8'));
const pages = new Map(pagesOf(readManifest()).map((path) => [path, builtPage(path)]));

/** Addresses, from the site's base, that lead to no page or to no place on it. */
function leadingNowhere(addresses: Iterable<string>): string[] {
  return [...addresses].filter((address) => {
    const [path = '', fragment] = address.split('#');
    const page = pages.get(path);
    return page === undefined || (fragment !== undefined && !page.includes(` id="${fragment}"`));
  });
}

describe('search leads somewhere', () => {
  test('from every name', () => {
    expect(vocabulary.names.length).toBeGreaterThan(100);
    expect(leadingNowhere(vocabulary.names.map(({ url }) => url))).toEqual([]);
  });

  test('from every item of every system and each of its terminals', () => {
    const addresses = vocabulary.systems.flatMap(({ url: here, items }) =>
      Object.entries(items).flatMap(([item, { device }]) => {
        const terminals = vocabulary.names.filter(({ url }) => url.startsWith(`${device}#`));
        return [item, ...terminals.map(({ name }) => `${item}.${name}`)].map(
          (reference) => findReference(reference, vocabulary, here)[0]!.url,
        );
      }),
    );
    expect(addresses.length).toBeGreaterThan(200);
    expect(leadingNowhere(addresses)).toEqual([]);
  });
});
