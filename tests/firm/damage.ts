import { isCollection, parseDocument, visit } from 'yaml';
import type { Random } from '../support/random.ts';
import { FIXTURE_FIRM, LOGO } from './fixture-firm.ts';
import { type FirmFiles, LINK } from './memory.ts';

/** A damaged firm's folder. */
export interface Damaged {
  readonly name: string;
  readonly files: FirmFiles;
  /** Code of a problem that must be among those found; absent where it may also be in order. */
  readonly code?: string;
}

const FILES = Object.keys(FIXTURE_FIRM);
const ENTRIES = FILES.filter((file) => file.endsWith('.mdx'));
const textOf = (file: string) => FIXTURE_FIRM[file]!;

/** The firm with one file as given. */
const having = (file: string, content: FirmFiles[string]): FirmFiles => ({
  ...FIXTURE_FIRM,
  [file]: content,
});

/** Markup and programs in every way that a page could be fooled by. */
export const HOSTILE = [
  '"><script>globalThis.owned=1;alert(1)</script>',
  '\'><img src=x onerror="globalThis.owned=2">',
  '</title></style></script><script>globalThis.owned=3</script><svg onload=globalThis.owned=4>',
  `{globalThis.owned=5} $\{globalThis.owned=6} javascript:globalThis.owned=7`,
  '--></p><iframe srcdoc="<script>parent.owned=8</script>"></iframe>&lt;b&gt;\u2028\u202e',
].join(' ');

/** Values that stand where others belong. */
const VALUES: readonly unknown[] = [
  ...[null, true, -1, 1e308, '', ' ', [], {}, [[[]]], { a: { b: 1 } }],
  ...['x'.repeat(50_000), '../../../etc/passwd', '__proto__', 'constructor', HOSTILE],
];

interface Spot {
  readonly file: string;
  readonly yaml: string;
  readonly rest: string;
  readonly path: readonly (string | number)[];
}

/** Every value of every file's YAML, by path. */
const spotsOf = (files: Readonly<Record<string, string>>): readonly Spot[] =>
  Object.entries(files)
    .filter(([file]) => file !== 'logo.svg')
    .flatMap(([file, text]) => {
      const isEntry = file.endsWith('.mdx');
      const [, yaml = '', rest = ''] = isEntry
        ? (/^---\n([\s\S]*?\n)(---[\s\S]*)$/.exec(text) ?? [])
        : ['', text, ''];
      const paths: (string | number)[][] = [];
      visit(parseDocument(yaml), {
        Node(key, node, above) {
          if (key === 'key') return;
          const path = above.flatMap((one, i) => {
            const next = above[i + 1] ?? node;
            if (!isCollection(one)) return [];
            const items: readonly unknown[] = one.items;
            const at = items.indexOf(next);
            const pair = next as { readonly key?: { readonly value?: unknown } };
            return [pair.key === undefined ? at : String(pair.key.value)];
          });
          if (path.length > 0) paths.push(path);
        },
      });
      return paths.map((path) => ({ file, yaml, rest, path }));
    });

const SPOTS = spotsOf(FIXTURE_FIRM);

/** Those that hold text. */
export const spotsOfText = (files: Readonly<Record<string, string>>): readonly Spot[] =>
  spotsOf(files).filter(({ yaml, path }) => typeof parseDocument(yaml).getIn(path) === 'string');

/** The firm with another value in a place. */
export function withValue({ file, yaml, rest, path }: Spot, value: unknown): FirmFiles {
  const document = parseDocument(yaml);
  document.setIn(path, document.createNode(value));
  const text = document.toString({ lineWidth: 0 });
  return having(file, rest === '' ? text : `---\n${text}${rest}`);
}

/** One value replaced by another. */
export function wrongValue({ pick }: Random): Damaged {
  const spot = pick(SPOTS);
  const value = pick(VALUES);
  const shown = JSON.stringify(value)?.slice(0, 24);
  return { name: `${spot.file} ${spot.path.join('.')} = ${shown}`, files: withValue(spot, value) };
}

/** Hostile text in every place of every file that holds text, one folder a place. */
export const hostileTexts = (): Damaged[] =>
  spotsOfText(FIXTURE_FIRM).map((spot) => ({
    name: `hostile ${spot.file} ${spot.path.join('.')}`,
    files: withValue(spot, HOSTILE),
  }));

/** A file cut short, or with a stretch of another put in. */
export function cutFile({ pick, below, next }: Random): Damaged {
  const file = pick(FILES);
  const text = textOf(file);
  const at = below(text.length);
  const other = textOf(pick(FILES));
  const from = below(other.length);
  const inserted = next() < 0.5 ? '' : other.slice(from, from + 40) + text.slice(at + 5);
  return { name: `${file} cut at ${at}`, files: having(file, text.slice(0, at) + inserted) };
}

const without = (gone: string): FirmFiles =>
  Object.fromEntries(Object.entries(FIXTURE_FIRM).filter(([file]) => file !== gone));
const bytes = (text: string) => new TextEncoder().encode(text);
const joined = (...parts: readonly Uint8Array[]) =>
  Uint8Array.from(parts.flatMap((part) => [...part]));

/** Files that are missing, too large, no text, or not what they seem. */
export const badFiles = (): Damaged[] => [
  { name: 'no settings', files: without('firm.yaml'), code: 'firm-missing' },
  { name: 'no logo', files: without('logo.svg'), code: 'logo-unfit' },
  { name: 'empty folder', files: {}, code: 'firm-missing' },
  ...ENTRIES.map((file) => ({ name: `no ${file}`, files: without(file) })),
  ...FILES.flatMap((file) => {
    const logo = file === 'logo.svg';
    const text = textOf(file);
    const code = (other: string) => (logo ? 'logo-unfit' : other);
    const cut = file === 'firm.yaml' ? text : text.replace(/^---\n/, '---\n');
    return [
      { name: `link ${file}`, files: having(file, LINK), code: code('file-link') },
      { name: `empty ${file}`, files: having(file, ''), code: code('file-empty') },
      {
        name: `not UTF-8 ${file}`,
        files: having(
          file,
          joined(bytes(text.slice(0, 9)), Uint8Array.of(0xff, 0xe9), bytes(text)),
        ),
        code: code('file-not-utf8'),
      },
      {
        name: `UTF-16 ${file}`,
        files: having(file, Uint8Array.from(Buffer.from(`\uFEFF${text}`, 'utf16le'))),
        code: code('file-not-utf8'),
      },
      {
        name: `byte order mark ${file}`,
        files: having(file, joined(Uint8Array.of(0xef, 0xbb, 0xbf), bytes(text))),
        ...(logo ? {} : { code: 'file-byte-order-mark' }),
      },
      {
        name: `huge ${file}`,
        files: having(file, cut + '# more\n'.repeat(200_000)),
        ...(file === 'firm.yaml' || logo ? {} : { code: 'file-too-large' }),
      },
      { name: `zeros ${file}`, files: having(file, new Uint8Array(4000)) },
    ];
  }),
  {
    name: 'content is a link',
    files: { 'firm.yaml': textOf('firm.yaml'), 'logo.svg': LOGO, content: LINK },
    code: 'file-link',
  },
  {
    name: 'a folder of entries is a link',
    files: { 'firm.yaml': 'name: A\n', 'content/systems': LINK },
    code: 'file-link',
  },
  {
    name: 'settings are a folder',
    files: { 'firm.yaml/x': '' },
    code: 'firm-missing',
  },
  ...['', '[]', '{"proveline":"counts","version":1}', '\u0000', HOSTILE].map((content) => ({
    name: `counts ${content.slice(0, 40)}`,
    files: having('field/counts.json', content),
    code: 'counts-unfit',
  })),
  {
    name: 'counts are a link',
    files: having('field/counts.json', LINK),
    code: 'counts-unfit',
  },
  {
    name: 'a folder within a folder',
    files: having('content/glossary/more/x.mdx', '---\ntitle: A\n---\n'),
    code: 'folder-unknown',
  },
  {
    name: 'a program among the entries',
    files: having('content/glossary/x.ts', ''),
    code: 'file-name',
  },
  { name: 'a hidden file', files: having('content/glossary/..x.mdx', '') },
];

const term = (more: string) => `---\ntitle: T\nsummary: S.\n${more}---\n`;

/** Claims on the reference's entries that cannot be met. */
export const badClaims = (): Damaged[] => [
  {
    name: 'two entries replace one another',
    files: {
      ...having('content/glossary/spur.mdx', term('replaces: call\n')),
      'content/glossary/call.mdx': term('replaces: spur\n').replace('title: T', 'title: U'),
    },
    code: 'replaces-circle',
  },
  {
    name: 'three of the firm’s own replace one another',
    files: {
      ...FIXTURE_FIRM,
      'content/glossary/a.mdx': term('replaces: b\n').replace('title: T', 'title: A'),
      'content/glossary/b.mdx': term('replaces: c\n').replace('title: T', 'title: B'),
      'content/glossary/c.mdx': term('replaces: a\n').replace('title: T', 'title: C'),
    },
    code: 'replaces-circle',
  },
  {
    name: 'devices extend one another',
    files: {
      ...FIXTURE_FIRM,
      'content/devices/a.mdx': '---\ntitle: A\nextends: b\n---\n',
      'content/devices/b.mdx': '---\ntitle: B\nextends: a\n---\n',
    },
    code: 'device-cycle',
  },
  {
    name: 'a device replaces one and extends what extends it',
    files: having(
      'content/devices/room-switch.mdx',
      '---\nreplaces: room-switch\nextends: lit-switch\ntitle: A\n---\n',
    ),
    code: 'device-cycle',
  },
  {
    name: 'replacement of nothing',
    files: having('content/glossary/x.mdx', term('replaces: nothing\n')),
    code: 'replaces-unknown',
  },
  {
    name: 'replacement by itself alone',
    files: having('content/glossary/x.mdx', term('replaces: x\n')),
    code: 'replaces-unknown',
  },
  {
    name: 'replacement in another file',
    files: having('content/glossary/x.mdx', term('replaces: spur\n')),
    code: 'replaces-elsewhere',
  },
  {
    name: 'extension of another',
    files: having('content/glossary/x.mdx', term('extends: spur\n')),
    code: 'extends-elsewhere',
  },
  {
    name: 'a name that is taken',
    files: having('content/glossary/spur.mdx', term('')),
    code: 'entry-shadows',
  },
  {
    name: 'a title that is taken',
    files: having('content/glossary/x.mdx', term('').replace('title: T', 'title: Spur')),
    code: 'title-used-twice',
  },
  ...(
    [
      ['hide: [glossary/call]', 'hide: [glossary/cal]', 'entry-unknown'],
      ['drip tray: {', 'wiring centre: {', 'feature-taken'],
      ['under: Round it', 'under: Also there', 'feature-taken'],
      ['drip tray: {', 'trip tray: {', 'value-not-allowed'],
      ['hide: [glossary/call]', 'hide: [glossary/rag]', 'hidden-own'],
      ['hide: [glossary/call]', 'hide: [devices/bench-heater]', 'hidden-needed'],
      ['hide: [glossary/call]', 'hide: [systems/../x]', 'value-form'],
      ['systems/plain-bench: [', 'systems/plane-bench: [', 'entry-unknown'],
      ['room-switch: {', 'room-swich: {', 'device-unknown'],
      ['call feed: [K1]', 'call fed: [K1]', 'terminal-undeclared'],
      ['light: "#0b5c4b"', 'light: "#9fd8c2"', 'accent-contrast'],
      ['dark: "#8fd8c2"', 'dark: "#303030"', 'accent-contrast'],
      ['base: /bench/', 'base: //elsewhere.example/', 'value-form'],
      ['base: /bench/', 'base: /a/../../b/', 'value-form'],
      ['logo: logo.svg', 'logo: ../logo.svg', 'value-form'],
      ['logo: logo.svg', 'logo: logo.exe', 'value-form'],
      ['name: Bench Firm', 'nmae: Bench Firm', 'key-unknown'],
      ['region: GB', 'region: Mars', 'value-not-allowed'],
      ['desk@bench.example', 'javascript:alert(1)', 'value-form'],
      ['"01632 960001"', '"1;postd=x"', 'value-form'],
    ] as const
  ).map(([from, to, code]) => ({
    name: `${code}: ${to}`,
    files: having('firm.yaml', textOf('firm.yaml').replace(from, to)),
    code,
  })),
];

/** Bodies that would run, load or dress up something. */
export const badBodies = (): Damaged[] =>
  (
    [
      ['{globalThis.owned = 1}', 'body-program'],
      ['Text {await import("node:fs")} text.', 'body-program'],
      ['{/* */ globalThis.owned = 1 /* */}', 'body-program'],
      ['import fs from "node:fs"', 'body-import'],
      ['export const x = 1', 'body-import'],
      ['<script>globalThis.owned = 1</script>', 'body-script'],
      ['<SCRIPT src="/x.js" />', 'component-unknown'],
      ['<img src="x" onerror="owned = 1" />', 'body-tag'],
      ['<b onclick="owned = 1">x</b>', 'body-tag'],
      ['<b style="position:fixed">x</b>', 'body-tag'],
      ['<b title={globalThis.owned = 1}>x</b>', 'body-program'],
      ['<b {...globalThis}>x</b>', 'body-program'],
      ['<iframe src="https://elsewhere.example/" />', 'body-tag'],
      ['<svg onload="owned = 1" />', 'body-tag'],
      ['<object data="x" />', 'body-tag'],
      ['<base href="https://elsewhere.example/" />', 'body-tag'],
      ['<meta http-equiv="refresh" content="0" />', 'body-tag'],
      ['<style>body</style>', 'body-tag'],
      ['<form action="https://elsewhere.example/"><button>x</button></form>', 'body-tag'],
      ['[x](javascript:globalThis.owned=1)', 'body-link'],
      ['[x](JaVaScRiPt:1)', 'body-link'],
      ['<a href="data:text/html,<p>">x</a>', 'body-link'],
      ['[x]\n\n[x]: vbscript:1', 'body-link'],
      ['[x](//elsewhere.example/)', 'body-link'],
      ['![x](../../../etc/passwd)', 'body-tag'],
      ['![x](https://elsewhere.example/x.png)', 'body-tag'],
      ['<Fragment set:html="<b>" />', 'component-unknown'],
      ['<x-y is="x" />', 'body-tag'],
    ] as const
  ).map(([body, code]) => ({
    name: `body ${body.replaceAll('\n', ' ')}`,
    files: having('content/glossary/rag.mdx', `${textOf('content/glossary/rag.mdx')}\n${body}\n`),
    code,
  }));

const svg = (inside: string, attributes = '') =>
  `<svg xmlns="http://www.w3.org/2000/svg"${attributes}>${inside}</svg>`;
const png = (width: number) => {
  const head = [
    0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52,
  ];
  const file = new Uint8Array(64);
  file.set(head);
  new DataView(file.buffer).setUint32(16, width);
  return file;
};

/** Logos that are no picture, or more than one. */
export const badLogos = (): Damaged[] => [
  ...[
    svg('<script>globalThis.owned=1</script>'),
    svg('<path d="M0 0" onclick="owned=1"/>'),
    svg('', ' onload="owned=1"'),
    svg('<foreignObject><b>x</b></foreignObject>'),
    svg('<image href="https://elsewhere.example/x.png"/>'),
    svg('<a href="javascript:owned=1"><path d="M0 0"/></a>'),
    svg('<use href="https://elsewhere.example/x.svg#a"/>'),
    svg('<path fill="url(https://elsewhere.example/x)"/>'),
    svg('<path fill="url(&#104;ttps://elsewhere.example/x)"/>'),
    svg('<path style="fill:red"/>'),
    svg('<style>@import "x"</style>'),
    svg('<animate attributeName="href" to="javascript:owned=1"/>'),
    svg('<set attributeName="onload" to="owned=1"/>'),
    `<!DOCTYPE svg [<!ENTITY a "b">]>${svg('<title>&a;</title>')}`,
    `<?xml-stylesheet href="x.css"?>${svg('')}`,
    svg('<![CDATA[<script>owned=1</script>]]>'),
    svg('<path d="M0 0"'),
    '<html><body onload="owned=1"></body></html>',
    'GIF89a',
    `${svg('')}${' '.repeat(200_000)}`,
  ].map((logo) => ({
    name: `logo ${logo.slice(0, 70)}`,
    files: having('logo.svg', logo),
    code: 'logo-unfit',
  })),
  ...(
    [
      ['logo.png', png(99_999)],
      ['logo.png', LOGO],
      ['logo.png', png(10).slice(0, 20)],
      ['logo.jpg', LOGO],
      ['logo.jpg', png(10)],
    ] as const
  ).map(([file, content]) => ({
    name: `logo ${file}`,
    files: {
      ...having(file, content),
      'firm.yaml': textOf('firm.yaml').replace('logo.svg', file),
    },
    code: 'logo-unfit',
  })),
];
