import { describe, expect, test } from 'vitest';
import { System, type System as SystemData } from '../../schemas/index.ts';
import { frontmatterOf, loadEntries } from '../../src/entries/index.ts';
import {
  cablesYaml,
  formatLine,
  linksYaml,
  readCables,
  readCsv,
  withKey,
  writeCables,
  writeCsv,
} from '../../src/tables/index.ts';
import { CONTENT } from '../firm/memory.ts';
import { property } from '../support/property.ts';

const { systems, devices } = loadEntries(CONTENT).entries;
const shipped = [...systems.values()];

/** What a system's table is read against, without what its cables already say. */
const groundOf = ({ items }: SystemData) => ({
  items: new Map(
    Object.entries(items).map(([reference, { device }]) => [
      reference,
      Object.keys(devices.get(device)!.data.terminals),
    ]),
  ),
  cables: {},
});

/** Cables and links in order, so that a changed order is a difference too. */
const inOrder = ({ cables, links }: Pick<SystemData, 'cables' | 'links'>) =>
  JSON.stringify([
    Object.entries(cables).map(([id, { cores, ...facts }]) => [
      id,
      Object.entries(cores),
      Object.entries(facts).sort(),
    ]),
    links,
  ]);

describe('a wiring table', () => {
  test.each(shipped.map(({ id, data }) => ({ id, data })))(
    'says exactly what the entry says: $id',
    ({ data }) => {
      const table = writeCables(data);
      const { cables, links, problems } = readCables(table, groundOf(data));
      expect(problems).toEqual([]);
      expect(inOrder({ cables, links })).toBe(inOrder(data));
      expect(writeCables({ cables, links })).toBe(table);
    },
  );

  test.each(shipped.map(({ id, data }) => ({ id, data })))(
    'is written into an entry as frontmatter that reads the same: $id',
    ({ data }) => {
      const text = `---\ntitle: X # kept\ncables: {}\n# about modes\nmodes: {}\n---\n\nProse --- kept.\n`;
      const once = withKey(text, 'cables', cablesYaml(data.cables), 'modes');
      const twice = withKey(once, 'links', linksYaml(data.links), 'modes');
      const written = frontmatterOf(twice);
      const cables = System.shape.cables.parse(written.cables);
      const links = System.shape.links.parse(written.links);
      expect(inOrder({ cables, links })).toBe(inOrder(data));
      expect(twice).toContain('title: X # kept\n');
      expect(twice).toContain('# about modes\nmodes: {}\n---\n\nProse --- kept.\n');
      expect(withKey(twice, 'links', linksYaml(data.links), 'modes')).toBe(twice);
    },
  );

  test('is read with semicolons and decimal commas, a mark of byte order, and colours in words', () => {
    const { data } = systems.get('combi-two-wire')!;
    const plain = readCables(writeCables(data), groundOf(data));
    const other = writeCables(data)
      .replaceAll(',', ';')
      .replaceAll(/(\d)\.(\d)/g, '$1,$2')
      .replaceAll(';BN;', ';Brown;')
      .replaceAll(';GNYE;', ';green/yellow;')
      .replaceAll('\n', '\r\n');
    // Terminals are numbered with a full stop, which the decimal comma does not touch.
    const { cables, problems } = readCables(`\uFEFF${other}`, groundOf(data));
    expect(problems).toEqual([]);
    expect(cables).toEqual(plain.cables);
  });

  test('is told of every line that cannot be placed, and of what is allowed there', () => {
    const { data } = systems.get('combi-two-wire')!;
    const table = [
      'from,core,to,cable,kind,size,length,lenght',
      'Q1.load L,brown,E1.L,W2,flex,0.75,2',
      'Q2.load L,blue,E1.N,W2,,,',
      'Q1.load N,blue,E1.M,W2,,,',
      'Q1.load E,greene,E1.E,W2,,0.8,',
      'E1 call feed,brown,B1.COM,3,,,',
      'E1.E,GNYE,B1.E,W4,flex,1,',
      ',,,,,,',
      'E1.call feed,brown,,W5,flex,1,3',
    ].join('\n');
    const { problems } = readCables(table, groundOf(data));
    expect(problems.map(formatLine)).toEqual([
      'line 1: “lenght” is no column\n  found    lenght\n  allowed  from, core, to, cable, kind, size, earth size, length, sleeve, why\n  did you mean length?',
      'line 3, from: this system has no item Q2\n  found    Q2.load L\n  allowed  F1, Q1, E1, B1',
      'line 4, to: E1 has no terminal “M”\n  found    E1.M\n  allowed  L, N, E, call feed, call return',
      'line 5, size: this is no size\n  found    0.8\n  allowed  0.5, 0.75, 1, 1.5, 2.5, 4 (mm²)',
      'line 5, core: “greene” is no core colour\n  found    greene\n  allowed  BK, BN, RD, OG, YE, GN, BU, VT, GY, WH, PK, GD, TQ, SR, GNYE',
      'line 6, cable: a cable is W and a number, or the word link\n  found    3\n  allowed  W1, W2 … or link\n  did you mean W3?',
      'line 7, length: no line of W4 says its length\n  allowed  metres, as in 12.5',
      'line 9, to: the terminal is missing\n  allowed  ITEM.terminal, as in E1.call feed',
    ]);
  });

  test('is told of typographic quotation marks, which a table takes for letters', () => {
    const table = 'from,core,to,cable,kind,size,length\nQ1.load L,brown,“E1.L”,W2,flex,0.75,2\n';
    const { problems } = readCables(table, groundOf(systems.get('combi-two-wire')!.data));
    expect(problems.map(formatLine).slice(0, 1)).toEqual([
      'line 2, to: typographic quotation marks would become part of this; a table knows only straight ones, and needs them only around a separator\n  found    “E1.L”\n  did you mean E1.L?',
    ]);
  });
});

property('a table of any cells is read back as it was written', 300, ({ below, pick }) => {
  const signs = ['a', ' ', ',', ';', '\t', '"', '\n', "'", 'é', '=', '0'];
  const cell = () =>
    Array.from({ length: below(6) }, () => pick(signs))
      .join('')
      .trim();
  const width = 1 + below(4);
  const rows = Array.from({ length: 4 }, () => Array.from({ length: width }, cell)).filter((row) =>
    row.some((one) => one !== ''),
  );
  expect(readCsv(writeCsv(rows), ',').rows.map(({ cells }) => cells)).toEqual(rows);
});
