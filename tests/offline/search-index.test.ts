import { gunzipSync, gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { readSearchFiles } from '../../src/offline/build/search-files.ts';
import { CHUNKS, chunksOf, fragmentOf, readMeta, WORDS } from '../../src/offline/search-index.ts';
import { machine } from '../../src/search/build/effects.ts';

/** Length of `pagefind_dcd`, which stands before every file of the index. */
const SIGNATURE_BYTES = 12;

type Index = ReadonlyMap<string, Uint8Array<ArrayBuffer>>;

/** The index that Pagefind itself makes of some pages, given as the texts of their bodies. */
async function pagefindOf(pages: Readonly<Record<string, string>>): Promise<Index> {
  const files = await machine.indexPages(
    Object.entries(pages).map(([path, body]) => ({
      path: `${path}/index.html`,
      html: `<!doctype html><html lang="en-GB"><body data-pagefind-body><h1>${path}</h1><p>${body}</p></body></html>`,
    })),
  );
  return new Map(
    files.map(({ path, content }) => [`pagefind/${path}`, new Uint8Array(content)] as const),
  );
}

const readFiles = (index: Index) =>
  readSearchFiles([...index.keys()], async (path) => index.get(path)!);

/** Pages whose words are so many that the index comes in several chunks. */
const pages = (first = '') =>
  Object.fromEntries(
    Array.from({ length: 40 }, (_, page) => [
      `page-${page}`,
      `${page === 7 ? first : ''} The valve’s motor is fed. ${Array.from(
        { length: 400 },
        (_, i) => `w${((page * 7919 + i * 104729) % 5000).toString(36)}`,
      ).join(' ')} 230 V, ½ Ω, ${page % 3 ? 'façade' : 'FAÇADE facade'}`,
    ]),
  );

describe('an index kept by page', () => {
  test('gives back Pagefind’s own chunks, byte for byte', async () => {
    const index = await pagefindOf(pages());
    const { files, replaced } = await readFiles(index);
    const meta = files.find(({ path }) => path.endsWith('.pf_meta'))!;
    const words = new Map(
      files
        .filter(({ path }) => path.startsWith(WORDS))
        .map(({ path, body }) => [fragmentOf(path), new TextDecoder().decode(body)]),
    );
    expect(words.size).toBe(40);
    const chunks = chunksOf(readMeta(meta.body), words);
    const originals = [...index.keys()].filter((path) => path.startsWith(CHUNKS));
    expect(originals.length).toBeGreaterThan(1);
    expect([...chunks.keys()].toSorted()).toEqual(originals.toSorted());
    for (const path of originals) {
      expect(Buffer.compare(chunks.get(path)!, gunzipSync(index.get(path)!))).toBe(0);
      expect(replaced.has(path)).toBe(true);
    }
  });

  test('changes for the page that was edited alone, where Pagefind changes every chunk', async () => {
    const one = await pagefindOf(pages());
    const two = await pagefindOf(pages('only'));
    const fresh = [...two.keys()].filter((path) => path.startsWith(CHUNKS) && !one.has(path));
    expect(fresh).toEqual([...two.keys()].filter((path) => path.startsWith(CHUNKS)));
    const wordsOf = async (index: Index) =>
      (await readFiles(index)).files.filter(({ path }) => path.startsWith(WORDS));
    const before = new Set((await wordsOf(one)).map(({ body }) => Buffer.from(body).toString()));
    const changed = (await wordsOf(two)).filter(
      ({ body }) => !before.has(Buffer.from(body).toString()),
    );
    expect(changed.map(({ page }) => page)).toEqual(['page-7/']);
  });

  test('stays as it is when it is of another form', async () => {
    const index = new Map(await pagefindOf({ a: 'one', b: 'two' }));
    const chunk = [...index.keys()].find((path) => path.startsWith(CHUNKS))!;
    const plain = gunzipSync(index.get(chunk)!);
    // A head of another kind than any the index has: a map (RFC 8949, section 3.1).
    plain[SIGNATURE_BYTES] = 0xa1;
    index.set(chunk, new Uint8Array(gzipSync(plain)));
    expect(await readFiles(index)).toEqual({ files: [], replaced: new Set() });
  });
});
