import { describe, expect, it } from 'vitest';
import { compareReferences } from '../../src/changes/index.ts';
import {
  archiveOf,
  factsIn,
  readReleases,
  releaseNamed,
  releaseText,
  snapshotOf,
  unpackInto,
} from '../../src/releases/index.ts';
import { BENCH, factsOf, withEdits } from '../changes/bench.ts';

const facts = factsOf(BENCH);
const FACTS = {
  format: 1 as const,
  date: '2026-11-01',
  by: 'A. Name',
  version: 'aaaaaaaa',
  changes: [],
  code: 'c0de',
  data: { 'data/index.json': '0123456789abcdef' },
  snapshot: 'AAAA',
  archive: 'AAAA',
};
const first = releaseText({ ...FACTS, name: '2026.11', after: null });
const second = releaseText({ ...FACTS, name: '2026.12', after: '2026.11', date: '2026-12-01' });

/** A firm's folder in memory: file of its releases → text. */
const folder = (files: Readonly<Record<string, string>>) => ({
  list: async () => Object.entries(files).map(([path, text]) => ({ path, bytes: text.length })),
  read: async (file: string) =>
    new TextEncoder().encode(files[file.replace('firm/releases/', '')]!),
});
const reading = (files: Readonly<Record<string, string>>) => readReleases('firm', folder(files));

describe('releases in a firm’s folder', () => {
  it('are read from first to last, whatever their names sort by', async () => {
    const before = releaseText({ ...FACTS, name: '2026.2', after: null });
    const after = releaseText({ ...FACTS, name: '2026.10', after: '2026.2' });
    const releases = await reading({ '2026.10.json': after, '2026.2.json': before });
    expect(releases.map(({ name }) => name)).toEqual(['2026.2', '2026.10']);
    expect(() => releaseNamed(releases, '2026.3')).toThrow(
      'There is no release 2026.3 (releases/2026.3.json). Releases: 2026.2, 2026.10',
    );
  });

  it('are none where there is no such folder', async () => {
    const none = {
      list: () => Promise.reject(new Error('ENOENT')),
      read: () => Promise.reject(new Error('ENOENT')),
    };
    expect(await readReleases('firm', none)).toEqual([]);
  });

  const UNTOUCHED =
    'the file as npm run release wrote it; take it back from where the firm’s folder is kept';
  it.each<[string, Record<string, string>, RegExp | string]>([
    [
      'cut short',
      { '2026.11.json': first.slice(0, 120) },
      new RegExp(
        `^firm/releases/2026\\.11\\.json: it is not JSON, so it was cut short or edited: .*\\n  found    120 characters, ending in .*\\n  allowed  ${UNTOUCHED}$`,
        's',
      ),
    ],
    ['empty', { '2026.11.json': '' }, /it is not JSON.*\n {2}found {4}an empty file\n/s],
    [
      'edited by hand',
      { '2026.11.json': first.replace('A. Name', 'B. Name') },
      /^firm\/releases\/2026\.11\.json: it was edited since it was released: its seal is not of what it says\n {2}found {4}[0-9a-f]{32}\n {2}allowed {2}[0-9a-f]{32}$/,
    ],
    [
      'with a day that is none',
      { '2026.11.json': first.replace('2026-11-01', '2026-11-31') },
      `firm/releases/2026.11.json: date: this is no day of the calendar, as in 2026-12-01\n  found    "2026-11-31"\n  allowed  ${UNTOUCHED}`,
    ],
    [
      'of a later format',
      { '2026.11.json': first.replace('"format": 1', '"format": 2') },
      `firm/releases/2026.11.json: format: this version of Proveline reads format 1\n  found    2\n  allowed  ${UNTOUCHED}`,
    ],
    [
      'under another name',
      { '2026.10.json': first },
      'firm/releases/2026.10.json: it is a release of another name\n  found    2026.11\n  allowed  2026.10',
    ],
    [
      'after one that was deleted',
      { '2026.12.json': second },
      'firm/releases/2026.12.json: releases/2026.11.json, the release before it, is not there; a release is never deleted\n  found    2026.12\n  allowed  2026.11.json beside it; take it back from where the firm’s folder is kept',
    ],
    [
      'made twice after the same one',
      {
        '2026.11.json': first,
        '2026.12.json': second,
        '2026.13.json': releaseText({ ...FACTS, name: '2026.13', after: '2026.11' }),
      },
      'firm/releases/2026.12.json: after: two releases come after 2026.11: two people released at once\n  found    2026.12, 2026.13\n  allowed  one; release the later of them again, after the other',
    ],
    [
      'that are something else',
      { '2026.11.json': first, 'notes.txt': 'x' },
      /^firm\/releases\/notes\.txt: this is no release’s file\n {2}found {4}notes\.txt\n {2}allowed {2}NAME\.json; letters, digits/,
    ],
  ])(
    '%s are refused with the file, what was found and what may stand there',
    async (_, files, said) => {
      await expect(reading(files)).rejects.toThrow(said);
    },
  );

  it('are no two that follow one another in a circle', async () => {
    const round = {
      '2026.11.json': releaseText({ ...FACTS, name: '2026.11', after: '2026.12' }),
      '2026.12.json': second,
    };
    await expect(reading(round)).rejects.toThrow('no way leads to it from the first release');
  });
});

describe('what a release keeps', () => {
  it('compares with a later state as the state itself does', () => {
    const kept = factsIn(snapshotOf(facts));
    expect(compareReferences(kept, facts)).toEqual([]);
    const later = factsOf(
      withEdits(
        ['systems/plain-bench.mdx', '[E1.call feed, S1.call feed]', '[E1.N, S1.call feed]'],
        ['standards/loss.mdx', 'most: 5', 'most: 2'],
      ),
    );
    expect(compareReferences(kept, later)).toEqual(compareReferences(facts, later));
    expect(compareReferences(kept, later)).toHaveLength(2);
  });

  it('gives every file back byte for byte, and holds nothing that data is not made from', async () => {
    const files: Record<string, Uint8Array<ArrayBuffer>> = {
      'content/systems/a.mdx': bytes('---\r\ntitle: “A”\n'),
      'content/sequences.lock.json': bytes('{}'),
      'content/notes.txt': bytes('no'),
      'firm/firm.yaml': bytes('\uFEFFname: A'),
      'firm/logo.png': new Uint8Array([0x89, 0x50, 0xff, 0, 0xc3, 0x28]),
      'firm/content/glossary/rag.mdx': bytes('---\n---\n'),
      // With other counts every order of tests may be another.
      'firm/field/counts.json': bytes('{"visits":[]}'),
      'firm/field/drafts/a.mdx': bytes('---\n---\n'),
      'firm/releases/2026.11.json': bytes('{}'),
      'firm/reviews/glossary/rag.yaml': bytes('read: {}'),
    };
    const packed = await archiveOf(
      { content: 'content', firm: 'firm' },
      {
        list: async (of) =>
          Object.keys(files)
            .filter((path) => path.startsWith(`${of}/`))
            .map((path) => ({ path: path.slice(of.length + 1), bytes: 0 })),
        read: async (path) => files[path]!,
      },
    );
    const written: Record<string, Uint8Array> = {};
    await unpackInto('out', packed, {
      write: async (path, body) => {
        written[path.slice('out/'.length)] =
          typeof body === 'string' ? bytes(body) : new Uint8Array(body);
      },
    });
    const {
      'content/notes.txt': _,
      'firm/releases/2026.11.json': __,
      'firm/reviews/glossary/rag.yaml': ___,
      'firm/field/drafts/a.mdx': ____,
      ...kept
    } = files;
    expect(written).toEqual(kept);
  });
});

const bytes = (text: string) => new Uint8Array(new TextEncoder().encode(text));
