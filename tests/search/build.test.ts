import { describe, expect, test } from 'vitest';
import { loadEntries } from '../../src/entries/index.ts';
import { buildSearchIndex, type Effects } from '../../src/search/build/index.ts';
import { wordsIn } from '../../src/search/build/words.ts';
import type { Vocabulary } from '../../src/search/names.ts';
import { rankNames } from '../../src/search/rank.ts';
import { findReference } from '../../src/search/reference.ts';

const { entries } = loadEntries('content');

/** A built site in memory, and an index that only says which folder it was made of. */
function inMemory(pages: Readonly<Record<string, string>>) {
  const files = new Map(
    Object.entries(pages).map(([path, text]) => [`dist/${path}`, new TextEncoder().encode(text)]),
  );
  const effects: Effects = {
    list: async () =>
      [...files].map(([path, body]) => ({ path: path.slice(5), bytes: body.length })),
    read: async (file) => files.get(file)!,
    async write(file, body) {
      files.set(
        file,
        typeof body === 'string' ? new TextEncoder().encode(body) : new Uint8Array(body),
      );
    },
    async remove(folder) {
      for (const path of files.keys()) if (path.startsWith(`${folder}/`)) files.delete(path);
    },
    indexPages: async () =>
      [
        'pagefind.js',
        'pagefind-worker.js',
        'pagefind-ui.js',
        'pagefind-component-ui.css',
        'wasm.en-gb.pagefind',
        'wasm.unknown.pagefind',
        'index/a.pf_index',
      ].map((path) => ({ path, content: new Uint8Array([1]) })),
  };
  return { files, effects };
}

async function build(pages: Readonly<Record<string, string>> = {}) {
  const { files, effects } = inMemory(pages);
  await buildSearchIndex('dist', entries, effects);
  const read = (name: string) => JSON.parse(new TextDecoder().decode(files.get(`dist/${name}`)));
  const vocabulary: Vocabulary = {
    ...read('search/names.json'),
    words: read('search/words.json'),
  };
  return { files, vocabulary };
}

describe('the words of the pages', () => {
  const page = (text: string) =>
    `<body><nav>Navigation</nav><main id="main" data-pagefind-body>${text}</main></body>`;

  test('are those of five letters or more, the most used first', () => {
    expect(
      wordsIn([page('<p>Valve, boiler</p>'), page('boiler <b>boiler</b> E1 call 3x230volts')]),
    ).toEqual(['boiler', 'valve']);
  });

  test('leave out tags, scripts, styles, character references and what is not indexed', () => {
    expect(
      wordsIn([
        page(
          '<p class="hidden">Relay</p><script>const window = "string";</script><style>.class{}</style>&nbsp;&rarr;',
        ),
        '<main>outside the index</main>',
      ]),
    ).toEqual(['relay']);
  });
});

describe('the index of the reference', () => {
  test('holds every entry and every terminal under an address of its own', async () => {
    const { vocabulary } = await build();
    const { systems, symptoms, devices, procedures, standards, glossary } = entries;
    const terminals = [...devices.values()].flatMap(({ data }) => Object.keys(data.terminals));
    const kinds = [systems, symptoms, devices, procedures, standards, glossary];
    const entriesCount = kinds.reduce((sum, kind) => sum + kind.size, 0);
    expect(entriesCount).toBeGreaterThan(100);
    expect(vocabulary.names).toHaveLength(entriesCount + terminals.length);
    expect(new Set(vocabulary.names.map(({ url }) => url)).size).toBe(vocabulary.names.length);
  });

  test('finds every terminal of every system by its reference, in that system first', async () => {
    const { vocabulary } = await build();
    for (const { id, data } of entries.systems.values())
      for (const [item, { device }] of Object.entries(data.items))
        for (const terminal of Object.keys(entries.devices.get(device)!.data.terminals)) {
          const reference = `${item}.${terminal}`;
          const [first] = findReference(reference, vocabulary, `systems/${id}/`);
          expect([id, first?.title, first?.url.split('#')[0]]).toEqual([
            id,
            reference,
            `systems/${id}/readings/`,
          ]);
        }
  });

  test('finds every entry by its title, and every abbreviation of the glossary', async () => {
    const { names } = (await build()).vocabulary;
    for (const { name, kind, url } of names.filter((each) => each.kind !== 'terminal'))
      expect([name, rankNames(name, { names }, { facets: { kind: [kind] } })[0]!.url]).toEqual([
        name,
        url,
      ]);
    for (const { id, data } of entries.glossary.values())
      for (const short of data.abbreviations) {
        const found = rankNames(short, { names }, { facets: { kind: ['word'] } }).map(
          ({ url }) => url,
        );
        expect([short, found]).toEqual([short, expect.arrayContaining([`glossary/${id}/`])]);
      }
  });

  test('leaves out the parts of the indexer that the site does not use', async () => {
    const { files } = await build({ 'pagefind/old.pf_index': 'of a build before' });
    expect([...files.keys()].filter((path) => path.startsWith('dist/pagefind/'))).toEqual([
      'dist/pagefind/pagefind.js',
      'dist/pagefind/pagefind-worker.js',
      'dist/pagefind/wasm.en-gb.pagefind',
      'dist/pagefind/index/a.pf_index',
    ]);
  });
});
