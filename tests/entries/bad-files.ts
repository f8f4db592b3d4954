import { type Case, edited, textOf, valid } from './fixture.ts';

const PLAIN = 'systems/plain-bench.mdx';
const SPUR = 'glossary/spur.mdx';
const HEATER = 'devices/bench-heater.mdx';
const plain = textOf(PLAIN);
const nested = (depth: number) => `---\ntitle: ${'['.repeat(depth)}${']'.repeat(depth)}\n---\n`;

const DEEPER =
  'this line is indented under a value; keys of one level begin in the same column, and a text over several lines with “: ” in it stands in quotation marks';
const CURLY =
  'smart-quotes: typographic quotation marks would become part of this; YAML knows only straight ones, " and \'';

/** Folders, files, frontmatter and bodies that cannot be read as an entry. */
export const BAD_FILES: readonly Case[] = [
  {
    name: 'empty folder',
    folder: {},
    problems: [
      'bench:1:1 folder-empty: there is no entry in it; entries stand in systems/, devices/, symptoms/, procedures/, standards/, glossary/, modules/',
    ],
  },
  {
    name: 'unknown folder',
    folder: { ...valid, 'system/bench.mdx': plain },
    problems: ['system:1:1 folder-unknown: this folder holds no kind of entry'],
  },
  {
    name: 'folder within a folder',
    folder: { ...valid, 'systems/old/bench.mdx': plain },
    problems: [
      'systems/old:1:1 folder-unknown: entries stand directly in systems/, not in folders within it',
    ],
  },
  {
    name: 'file that is no MDX',
    folder: { ...valid, 'systems/New Bench.md': plain },
    problems: ['systems/New Bench.md:1:1 file-name: an entry’s file name ends in .mdx'],
  },
  {
    name: 'file name in capitals',
    folder: { ...valid, 'glossary/Live_Feed.mdx': textOf(SPUR).replace('Spur', 'Live feed') },
    problems: [
      'glossary/Live_Feed.mdx:1:1 file-name: a file name is lower-case words joined by hyphens',
    ],
  },
  {
    name: 'empty file',
    folder: { ...valid, [PLAIN]: '\n' },
    problems: ['systems/plain-bench.mdx:1:1 file-empty: the file is empty'],
  },
  {
    name: 'text in another encoding',
    folder: {
      ...valid,
      [SPUR]: Uint8Array.from(
        [...textOf(SPUR).slice(0, 24)].map((c) => c.charCodeAt(0)).concat(0xb0, 10),
      ),
    },
    problems: ['glossary/spur.mdx:3:9 file-not-utf8: a byte here is not UTF-8 text'],
  },
  {
    name: 'byte order mark',
    folder: { ...valid, [PLAIN]: `\uFEFF${plain}` },
    problems: [
      'systems/plain-bench.mdx:1:1 file-byte-order-mark: the file begins with a byte order mark',
    ],
  },
  {
    name: 'carriage returns',
    folder: { ...valid, [PLAIN]: plain.replaceAll('\n', '\r\n') },
    problems: [
      'systems/plain-bench.mdx:1:4 file-line-endings: a line ends in CR; lines end in LF alone',
    ],
  },
  {
    name: 'no frontmatter',
    folder: { ...valid, [SPUR]: 'A spur is a branch.\n' },
    problems: [
      'glossary/spur.mdx:1:1 frontmatter-missing: the file does not begin with frontmatter; its first line is ---',
    ],
  },
  {
    name: 'blank line before the frontmatter',
    folder: { ...valid, [SPUR]: `\n${textOf(SPUR)}` },
    problems: [
      'glossary/spur.mdx:2:1 frontmatter-missing: blank lines stand before the frontmatter; its --- is the first line of the file',
    ],
  },
  {
    name: 'unterminated frontmatter',
    folder: edited(SPUR, ['circuit.\n---', 'circuit.\n--']),
    problems: [
      'glossary/spur.mdx:1:1 frontmatter-unterminated: the frontmatter that begins here has no closing --- line',
    ],
  },
  {
    name: 'empty frontmatter',
    folder: { ...valid, [SPUR]: '---\n---\n' },
    problems: ['glossary/spur.mdx:1:1 frontmatter-not-keys: the frontmatter is empty'],
  },
  {
    name: 'frontmatter that is a list',
    folder: { ...valid, [SPUR]: '---\n- title\n---\n' },
    problems: [
      'glossary/spur.mdx:2:1 frontmatter-not-keys: the frontmatter is not a list of keys and values, as in title: Room control',
    ],
  },
  {
    name: 'unclosed bracket',
    folder: edited(PLAIN, ['GNYE: [Q1.E, E1.E]', 'GNYE: [Q1.E, E1.E']),
    problems: [
      'systems/plain-bench.mdx:30:13 yaml-syntax: the frontmatter is not YAML: this [ has no closing ]',
    ],
  },
  {
    name: 'colon in a plain text',
    folder: edited(PLAIN, ['summary: One heater', 'summary: One heater: small']),
    problems: [
      'systems/plain-bench.mdx:3:10 yaml-syntax: the frontmatter is not YAML: a text with “: ” in it stands in quotation marks',
    ],
  },
  {
    name: 'tab as indentation',
    folder: edited(SPUR, ['summary: A', 'summary:\n\tA']),
    problems: [
      'glossary/spur.mdx:4:1 yaml-syntax: the frontmatter is not YAML: lines are indented with spaces, not tabs',
    ],
  },
  {
    name: 'unclosed quotation mark',
    folder: edited(SPUR, ['title: Spur', 'title: "Spur']),
    problems: [
      'glossary/spur.mdx:2:8 yaml-syntax: the frontmatter is not YAML: this quotation mark is not closed',
    ],
  },
  {
    name: 'bracket too many',
    folder: edited('glossary/call.mdx', ['see: [spur]', 'see: [spur]]']),
    problems: [
      'glossary/call.mdx:4:12 yaml-syntax: the frontmatter is not YAML: this ] closes nothing',
    ],
  },
  {
    name: 'indented too little',
    folder: edited(PLAIN, ['    size: 2.5', '   size: 2.5']),
    problems: [
      'systems/plain-bench.mdx:16:1 yaml-syntax: the frontmatter is not YAML: keys of one level begin in the same column',
    ],
  },
  {
    name: 'indented under a value',
    folder: edited(PLAIN, ['    size: 2.5', '     size: 2.5']),
    problems: [`systems/plain-bench.mdx:16:6 yaml-syntax: the frontmatter is not YAML: ${DEEPER}`],
  },
  {
    name: 'indented under the first key',
    folder: edited(SPUR, ['summary:', ' summary:']),
    problems: [`glossary/spur.mdx:3:2 yaml-syntax: the frontmatter is not YAML: ${DEEPER}`],
  },
  {
    name: 'key under an item of a list of texts',
    folder: edited(PLAIN, ['and nothing between them.', 'and nothing\n    between: them.']),
    problems: [`systems/plain-bench.mdx:8:5 yaml-syntax: the frontmatter is not YAML: ${DEEPER}`],
  },
  {
    name: 'item of a list in another column',
    folder: edited(PLAIN, ['nothing between them.\n', 'nothing between them.\n - A lamp.\n']),
    problems: [
      'systems/plain-bench.mdx:8:1 yaml-syntax: the frontmatter is not YAML: the items of one list begin in the same column',
    ],
  },
  {
    name: 'item of a list swallowed by the text above',
    folder: edited(PLAIN, ['nothing between them.\n', 'nothing between them.\n    - A lamp.\n']),
    problems: [
      'systems/plain-bench.mdx:8:5 yaml-syntax: this item is indented under the text above and would become part of it; the items of one list begin in the same column',
    ],
  },
  {
    name: 'typographic quotation marks round a text',
    folder: edited(SPUR, ['title: Spur', 'title: “Spur”']),
    problems: [`glossary/spur.mdx:2:8 ${CURLY}`],
  },
  {
    name: 'typographic quotation marks round a name',
    folder: edited(PLAIN, ['device: room-switch', 'device: ‘room-switch’']),
    problems: [`systems/plain-bench.mdx:12:17 ${CURLY}`],
  },
  {
    name: 'typographic quotation marks round a key and a comma',
    folder: edited(PLAIN, [
      'S1: { device: room-switch, place: On the wall }',
      '“S1”: { device: room-switch, place: “Wall, left” }',
    ]),
    problems: [`systems/plain-bench.mdx:12:3 ${CURLY}`, `systems/plain-bench.mdx:12:39 ${CURLY}`],
  },
  {
    name: 'typographic quotation marks in a list of terminals',
    folder: edited(PLAIN, ['[G1.N, Q1.N in]', '[G1.N, ”Q1.N in”]']),
    problems: [`systems/plain-bench.mdx:21:18 ${CURLY}`],
  },
  {
    name: 'straight quotation mark closed by a typographic one',
    folder: edited(SPUR, ['title: Spur', 'title: "Spur”']),
    problems: [
      'glossary/spur.mdx:2:8 yaml-syntax: the frontmatter is not YAML: this " is closed by a typographic quotation mark; YAML knows only straight ones',
    ],
  },
  {
    name: 'line without a colon',
    folder: edited(SPUR, ['title: Spur', 'title']),
    problems: [
      'glossary/spur.mdx:2:1 yaml-syntax: the frontmatter is not YAML: this line is not key: value',
    ],
  },
  {
    name: 'anchor and alias',
    folder: edited(PLAIN, ['length: 2\n', 'length: &two 2\n'], ['length: 8', 'length: *two']),
    problems: [
      'systems/plain-bench.mdx:34:13 yaml-unsupported: an entry has no aliases; write the value out',
    ],
  },
  {
    name: 'YAML tag',
    folder: edited(PLAIN, ['version: 1', 'version: !first 1']),
    problems: [
      'systems/plain-bench.mdx:65:10 yaml-unsupported: an entry has no YAML tags; write the plain value',
    ],
  },
  {
    name: 'list as a key',
    folder: edited(SPUR, ['title: Spur', 'title: Spur\n? [a, b]\n: c']),
    problems: ['glossary/spur.mdx:3:3 yaml-unsupported: a key here is no word or number'],
  },
  {
    name: 'values nested without end',
    folder: { ...valid, [SPUR]: nested(60) },
    problems: ['glossary/spur.mdx:2:1 yaml-unsupported: values are nested more than 40 deep'],
  },
  {
    name: 'values nested beyond the parser',
    folder: { ...valid, [SPUR]: nested(20_000) },
    problems: ['glossary/spur.mdx:2:1 yaml-unsupported: values are nested more than 40 deep'],
  },
  {
    name: 'body with crossed tags',
    folder: edited(PLAIN, ['The plainest arrangement', 'The <b>plainest</i> arrangement']),
    problems: [
      'systems/plain-bench.mdx:68:16 body-syntax: the body is not MDX: unexpected closing tag `</i>`, expected corresponding closing tag for `<b>` (68:5)',
    ],
  },
  {
    name: 'body with an open brace',
    folder: edited(HEATER, ['minutes: 3 }\n---\n', 'minutes: 3 }\n---\n\nLess than {3 minutes.\n']),
    problems: [
      'devices/bench-heater.mdx:33:11 body-syntax: the body is not MDX: unexpected end of file in expression, expected a corresponding closing brace for `{`',
    ],
  },
  {
    name: 'body with an import',
    folder: edited(PLAIN, ['The plainest', "import Clock from './clock.ts'\n\nThe plainest"]),
    problems: [
      'systems/plain-bench.mdx:68:1 body-import: a body has no import or export; what pages need is there without it',
    ],
  },
  {
    name: 'body with a script',
    folder: edited(PLAIN, ['The plainest', 'The <script>go()</script> plainest']),
    problems: ['systems/plain-bench.mdx:68:5 body-script: a body has no <script>'],
  },
  {
    name: 'file that is far too large',
    folder: { ...valid, 'glossary/spur.mdx': `${textOf(SPUR)}${'more '.repeat(250_000)}` },
    problems: [
      'glossary/call.mdx:4:7 term-unknown: there is no glossary entry “spur”',
      'glossary/spur.mdx:1:1 file-too-large: a file here has at most 1048576 bytes',
    ],
  },
];
