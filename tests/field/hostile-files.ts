import { mkdirSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { HOSTILE } from '../firm/damage.ts';

/** A report in order. */
export const REPORT = {
  proveline: 'field',
  version: 1,
  id: 'report-0001',
  on: '2026-11-20',
  kind: 'report',
  page: 'systems/combi-two-wire/readings/',
  build: { version: '0123abcd', date: '2026-11-18' },
  seen: 'Says live, reads nothing.',
  asFound: null,
} as const;

/** A visit in order. */
export const VISIT = {
  proveline: 'field',
  version: 1,
  id: 'visit-00001',
  on: '2026-11-21',
  kind: 'visit',
  build: null,
  system: 'combi-two-wire',
  wiring: 1,
  complaint: 'no-heating',
  history: 'worked until now',
  cause: 'control',
  acts: ['look heating E1.burner'],
  readings: 2,
  minutes: 40,
  asFound: null,
  ticked: {},
} as const;

type Body = string | Uint8Array;
/** A kind of hostile file, its variants, and whether it is refused or held as data. */
interface Kind {
  readonly kind: string;
  readonly fate: 'refused' | 'held';
  /** One for each variant. */
  readonly files: readonly { readonly name?: string; readonly body: Body }[];
}

const json = (value: unknown) => JSON.stringify(value);
const report = (i: number, change: object = {}) => ({ ...REPORT, id: `hostile-${i}-a`, ...change });
const visit = (i: number, change: object = {}) => ({ ...VISIT, id: `hostile-${i}-b`, ...change });
const nested = (depth: number) => `${'['.repeat(depth)}${']'.repeat(depth)}`;
const withKeyText = (value: object, key: string, text: string) =>
  `${json(value).slice(0, -1)},${json(key)}:${text}}`;
const bytes = (...parts: readonly (string | readonly number[])[]): Uint8Array =>
  Buffer.concat(parts.map((part) => Buffer.from(part as string)));

/** Markup, programs, marks of direction and what steers a terminal. */
const TEXTS = [
  HOSTILE,
  '<script>globalThis.owned=1</script>',
  '{globalThis.owned=2}',
  '\u001b]0;owned\u0007\u001b[2J\u001b[31mred',
  '\u202eevil\u2066\u200f',
  '$(touch owned) `touch owned` ; touch owned',
  '---\ntitle: owned\n---',
  '=cmd|"/C calc"!A0',
  '%s%n%p\u0000end',
  'javascript:globalThis.owned=3',
];

let at = 0;
const each = <T>(list: readonly T[], body: (one: T, i: number) => Body) =>
  list.map((one) => ({ body: body(one, at++) }));

/** Twenty kinds of ten variants each. */
export const HOSTILE_KINDS: readonly Kind[] = [
  {
    kind: 'text as it was seen',
    fate: 'held',
    files: each(TEXTS, (seen, i) => json(report(i, { seen }))),
  },
  {
    kind: 'text that was ticked',
    fate: 'held',
    files: each(TEXTS, (notes, i) => json(visit(i, { ticked: { notes } }))),
  },
  {
    kind: 'text as an act',
    fate: 'held',
    files: each(TEXTS, (text, i) => json(visit(i, { acts: [text.slice(0, 200)] }))),
  },
  {
    kind: 'a mark of byte order',
    fate: 'held',
    files: each(TEXTS, (seen, i) => bytes([0xef, 0xbb, 0xbf], json(report(i, { seen })))),
  },
  {
    kind: 'a message around it',
    fate: 'held',
    files: TEXTS.map((text, i) => ({
      name: `message-${i}.txt`,
      body: `${text}\n\n${json(report(at++))}\n`,
    })),
  },
  {
    kind: 'a page that is none',
    fate: 'refused',
    files: each(
      [
        ...TEXTS.slice(0, 6),
        'systems/no-such-system/',
        '../../etc/passwd',
        'systems/../x/',
        'glossary/call/',
      ],
      (page, i) => json(report(i, { page })),
    ),
  },
  {
    kind: 'a system that is none',
    fate: 'refused',
    files: each(
      [...TEXTS.slice(0, 5), 'no-such-system', '__proto__', 'constructor', '', 'x'.repeat(500)],
      (system, i) => json(visit(i, { system })),
    ),
  },
  {
    kind: 'a version newer than known',
    fate: 'refused',
    files: each([2, 3, 9, 100, 1e9, 2 ** 53, 1.5, -1, '1', null], (version, i) =>
      json(report(i, { version })),
    ),
  },
  {
    kind: 'unknown keys',
    fate: 'refused',
    files: each(
      [
        'extra',
        'then',
        'toString',
        'toJSON',
        'valueOf',
        'hasOwnProperty',
        'length',
        '',
        '0',
        'IsAdmin',
      ],
      (key, i) => withKeyText(i % 2 ? report(i) : visit(i), key, '1'),
    ),
  },
  {
    kind: 'keys of the prototype',
    fate: 'refused',
    files: each(
      ['__proto__', 'constructor', 'prototype']
        .flatMap(
          (key) =>
            [
              [key, 0],
              [key, 1],
              [key, 2],
            ] as const,
        )
        .concat([['__proto__', 1]]),
      ([key, where], i) => {
        const bad = `{${json(key)}:{"owned":true}}`;
        if (where === 0) return withKeyText(report(i), key, '{"owned":true}');
        if (where === 1) return json(visit(i)).replace('"ticked":{}', `"ticked":${bad}`);
        return json(report(i)).replace(/"build":\{.*?\}/, `"build":${bad}`);
      },
    ),
  },
  {
    kind: 'nested too deep',
    fate: 'refused',
    files: each([7, 8, 20, 100, 1000, 5000, 10_000, 50_000, 100_000, 500_000], (depth, i) =>
      withKeyText(visit(i), 'deep', nested(depth)),
    ),
  },
  {
    kind: 'wrong types of a report',
    fate: 'refused',
    files: each(
      [null, 1, true, [], {}, [['x']], { a: 1 }, 'x'.repeat(1001), 1e308, -0.5],
      (seen, i) => json(report(i, { seen })),
    ),
  },
  {
    kind: 'wrong types of a visit',
    fate: 'refused',
    files: each(
      [
        { cause: 'gremlins' },
        { cause: '__proto__' },
        { cause: null },
        { minutes: -1 },
        { minutes: 1e9 },
        { minutes: '40' },
        { history: 'always' },
        { readings: 0.5 },
        { acts: 'all' },
        { wiring: 0 },
      ],
      (change, i) => json(visit(i, change)),
    ),
  },
  {
    kind: 'too much of it',
    fate: 'refused',
    files: each(
      [2001, 3000, 9999, 10_001, 20_000, 30_000, 40_000, 50_000, 60_000, 70_000],
      (n, i) => json(visit(i, { acts: Array.from({ length: n }, () => 'x') })),
    ),
  },
  {
    kind: 'cut short',
    fate: 'refused',
    files: each([1, 2, 10, 30, 60, 90, 120, 150, 180, 200], (n, i) => json(report(i)).slice(0, n)),
  },
  {
    kind: 'no UTF-8',
    fate: 'refused',
    files: each(
      [
        [0xff, 0xfe],
        [0xfe, 0xff],
        [0xff],
        [0xc0, 0xaf],
        [0xed, 0xa0, 0x80],
        [0xf5, 0x80],
        [0x80],
        [0xe2, 0x28, 0xa1],
        [0xf8, 0x88],
        [0xc3],
      ],
      (bad) => bytes([...bad], '{"proveline":"field"}', [...bad]),
    ),
  },
  {
    kind: 'something else',
    fate: 'refused',
    files: each(
      [
        '',
        ' ',
        'null',
        '[]',
        '"field"',
        '42',
        '{}',
        '{"proveline":"job","version":5}',
        'PK\u0003\u0004',
        '<html></html>',
      ],
      (text) => text,
    ),
  },
  {
    kind: 'names of files',
    fate: 'held',
    files: [
      '\u001b[31m.json',
      '$(touch owned).json',
      '-rf.json',
      '..json',
      '\u202egpj.json',
      'a\nb.json',
      '`id`.json',
      ' .json',
      '<img src=x>.json',
      `${'x'.repeat(200)}.JSON`,
    ].map((name) => ({ name, body: json(report(at++)) })),
  },
  {
    kind: 'another ending',
    fate: 'refused',
    files: [
      'a.exe',
      'b.html',
      'c.js',
      'd.json.bak',
      'e',
      '.json5',
      'g.mjs',
      'h.jsonx',
      'i.sh',
      'j.zip',
    ].map((name) => ({ name, body: json(report(at++)) })),
  },
  {
    kind: 'marks that are none',
    fate: 'refused',
    files: each(
      [
        '',
        'as=',
        'as=<script>',
        'r=abc',
        'as=a&b=c',
        `as=${'x'.repeat(9000)}`,
        'javascript:alert(1)',
        'as=a b',
        'as=a\u0000',
        '#as=a',
      ],
      (asFound, i) => json(visit(i, { asFound })),
    ),
  },
];

/** Writes every hostile file into a folder. @returns each with its name and its fate */
export function writeHostile(folder: string) {
  return HOSTILE_KINDS.flatMap(({ kind, fate, files }, k) =>
    files.map(({ name, body }, i) => {
      const file = name ?? `${String(k).padStart(2, '0')}-${i}.json`;
      writeFileSync(join(folder, file), body);
      return { kind, fate, file };
    }),
  );
}

/** What is no file at all, or too large to open; names of what must be refused. */
export function writeOddities(folder: string): string[] {
  writeFileSync(join(folder, 'sparse.json'), '');
  truncateSync(join(folder, 'sparse.json'), 2 * 1024 ** 3);
  symlinkSync('/etc/passwd', join(folder, 'link.json'));
  symlinkSync('itself.json', join(folder, 'itself.json'));
  symlinkSync('/', join(folder, 'root'));
  mkdirSync(join(folder, 'folder.json'));
  return ['sparse.json', 'link.json', 'itself.json', 'root', 'folder.json'];
}
