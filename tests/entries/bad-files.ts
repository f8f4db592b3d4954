import { type Case, edited, textOf, valid } from './bench.ts';

const PLAIN = 'systems/plain-bench.mdx';
const SPUR = 'glossary/spur.mdx';
const HEATER = 'devices/bench-heater.mdx';
const plain = textOf(PLAIN);
const nested = (depth: number) => `---\ntitle: ${'['.repeat(depth)}${']'.repeat(depth)}\n---\n`;

/** Folders, files, frontmatter and bodies that cannot be read as an entry. */
export const BAD_FILES: readonly Case[] = [
  { name: 'empty folder', folder: {}, problems: [] },
  {
    name: 'unknown folder',
    folder: { ...valid, 'system/bench.mdx': plain },
    problems: [],
  },
  {
    name: 'folder within a folder',
    folder: { ...valid, 'systems/old/bench.mdx': plain },
    problems: [],
  },
  {
    name: 'file that is no MDX',
    folder: { ...valid, 'systems/New Bench.md': plain },
    problems: [],
  },
  {
    name: 'file name in capitals',
    folder: { ...valid, 'glossary/Live_Feed.mdx': textOf(SPUR).replace('Spur', 'Live feed') },
    problems: [],
  },
  { name: 'empty file', folder: { ...valid, [PLAIN]: '\n' }, problems: [] },
  {
    name: 'text in another encoding',
    folder: {
      ...valid,
      [SPUR]: Uint8Array.from(
        [...textOf(SPUR).slice(0, 24)].map((c) => c.charCodeAt(0)).concat(0xb0, 10),
      ),
    },
    problems: [],
  },
  { name: 'byte order mark', folder: { ...valid, [PLAIN]: `\uFEFF${plain}` }, problems: [] },
  {
    name: 'carriage returns',
    folder: { ...valid, [PLAIN]: plain.replaceAll('\n', '\r\n') },
    problems: [],
  },
  { name: 'no frontmatter', folder: { ...valid, [SPUR]: 'A spur is a branch.\n' }, problems: [] },
  {
    name: 'blank line before the frontmatter',
    folder: { ...valid, [SPUR]: `\n${textOf(SPUR)}` },
    problems: [],
  },
  {
    name: 'unterminated frontmatter',
    folder: edited(SPUR, ['circuit.\n---', 'circuit.\n--']),
    problems: [],
  },
  { name: 'empty frontmatter', folder: { ...valid, [SPUR]: '---\n---\n' }, problems: [] },
  {
    name: 'frontmatter that is a list',
    folder: { ...valid, [SPUR]: '---\n- title\n---\n' },
    problems: [],
  },
  {
    name: 'unclosed bracket',
    folder: edited(PLAIN, ['GNYE: [Q1.E, E1.E]', 'GNYE: [Q1.E, E1.E']),
    problems: [],
  },
  {
    name: 'colon in a plain text',
    folder: edited(PLAIN, ['summary: One heater', 'summary: One heater: small']),
    problems: [],
  },
  {
    name: 'tab as indentation',
    folder: edited(SPUR, ['summary: A', 'summary:\n\tA']),
    problems: [],
  },
  {
    name: 'unclosed quotation mark',
    folder: edited(SPUR, ['title: Spur', 'title: "Spur']),
    problems: [],
  },
  {
    name: 'bracket too many',
    folder: edited('glossary/call.mdx', ['see: [spur]', 'see: [spur]]']),
    problems: [],
  },
  {
    name: 'indented too little',
    folder: edited(PLAIN, ['    size: 2.5', '   size: 2.5']),
    problems: [],
  },
  { name: 'line without a colon', folder: edited(SPUR, ['title: Spur', 'title']), problems: [] },
  {
    name: 'anchor and alias',
    folder: edited(PLAIN, ['length: 2\n', 'length: &two 2\n'], ['length: 8', 'length: *two']),
    problems: [],
  },
  { name: 'YAML tag', folder: edited(PLAIN, ['version: 1', 'version: !first 1']), problems: [] },
  {
    name: 'list as a key',
    folder: edited(SPUR, ['title: Spur', 'title: Spur\n? [a, b]\n: c']),
    problems: [],
  },
  { name: 'values nested without end', folder: { ...valid, [SPUR]: nested(60) }, problems: [] },
  {
    name: 'values nested beyond the parser',
    folder: { ...valid, [SPUR]: nested(20_000) },
    problems: [],
  },
  {
    name: 'body with crossed tags',
    folder: edited(PLAIN, ['The plainest arrangement', 'The <b>plainest</i> arrangement']),
    problems: [],
  },
  {
    name: 'body with an open brace',
    folder: edited(HEATER, ['minutes: 3\n---\n', 'minutes: 3\n---\n\nLess than {3 minutes.\n']),
    problems: [],
  },
  {
    name: 'body with an import',
    folder: edited(PLAIN, ['The plainest', "import Clock from './clock.ts'\n\nThe plainest"]),
    problems: [],
  },
  {
    name: 'body with a script',
    folder: edited(PLAIN, ['The plainest', 'The <script>go()</script> plainest']),
    problems: [],
  },
];
