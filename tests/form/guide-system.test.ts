import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { devicesIn, said } from '../../src/cli/form-facts.ts';
import { entryText } from '../../src/cli/new-entry.ts';
import { guideSystem } from '../../src/form/guide-system.ts';
import { AUTHORS, checkAuthors } from '../entries/authors-firm.ts';
import { typed } from './typed-lines.ts';

const FILE = 'content/systems/our-new.mdx';
const BEGUN = readFileSync('content/systems/combi-two-wire.mdx', 'utf8')
  .replace(/^title: .*$/m, 'title: Our new combi')
  .replace(/^checked: .*\n/m, '')
  .replace(/\n---\n[\s\S]*$/, '\n---\n');
const withText = (text: string) => ({ ...AUTHORS, [FILE]: text });
const problemsOf = (text: string) =>
  checkAuthors(withText(text)).problems.filter(({ file }) => file === `firm/${FILE}`);

/** Somebody who goes through the system with these lines. */
const typing = (...lines: readonly string[]) =>
  typed(BEGUN, lines, (desk) =>
    guideSystem(BEGUN, {
      ...desk,
      check: (words) => said(problemsOf(words)),
      table(file) {
        if (file !== 'wiring.csv') throw new Error(`There is no file ${file}`);
        return 'from,core,to,cable,kind,size,earth size,length,sleeve\nF1.L,brown,Q1.supply L,W1,twin and earth,2.5,1.5,9,\nF1.N,blue,Q1.supply N,W1,,,,,\nF1.E,green-yellow,Q1.supply E,W1,,,,,\nQ1.load L,brown,E1.L,W2,flex,0.75,,1,\nQ1.load N,blue,E1.N,W2,,,,,\nQ1.load E,green-yellow,E1.E,W2,,,,,\nE1.call feed,brown,B1.COM,W3,twin and earth,1,,9,\nE1.call return,blue,B1.NO,W3,,,,,brown\nE1.E,green-yellow,B1.E,W3,,,,,\n';
      },
      devices: devicesIn(checkAuthors(AUTHORS).entries),
    }),
  );
const WORDS = ['A room stat calls it.', '', '', '', ''];

test('what nobody changes stays as it was, to the letter', async () => {
  const { text, over, told } = await typing('', '', '', '', '', '', '', '');
  expect([over, text]).toEqual([true, BEGUN]);
  expect(told).toMatch(/In order\.$/);
});

test('what stands in the place of the reference’s is gone through like any other', async () => {
  const begun = entryText({
    kind: 'system',
    schemas: '../../schemas',
    from: readFileSync('content/systems/combi-two-wire.mdx', 'utf8'),
    replaces: 'combi-two-wire',
  });
  const file = 'content/systems/combi-two-wire.mdx';
  const check = (words: string) =>
    checkAuthors({ ...AUTHORS, [file]: words }).problems.filter(
      (one) => one.file === `firm/${file}`,
    );
  const { text, over, told } = await typed(
    begun,
    ['The two-wire control that we fit.', '', '', '', '', '', '', ''],
    (desk) =>
      guideSystem(begun, {
        ...desk,
        check: (words) => said(check(words)),
        table: () => '',
        devices: devicesIn(checkAuthors(AUTHORS).entries),
      }),
  );
  expect([over, check(text)]).toEqual([true, []]);
  expect(told).toMatch(/In order\.$/);
  expect(text).toMatch(
    /^replaces: combi-two-wire\n[\s\S]*^summary: The two-wire control that we fit\.$/m,
  );
});

test('each answer is written as it is given: breaking off loses none', async () => {
  const { text, over } = await typing(...WORDS, 'B2', '10', 'Garage', 'yes', '');
  expect(over).toBe(false);
  expect(text).toContain('summary: A room stat calls it.');
  expect(text).toMatch(/B2: \{ device: [a-z-]+, place: Garage \}/);
});

test('a device is picked by number or name; one that is not there is asked for again', async () => {
  const { told } = await typing(
    ...WORDS,
    'b2',
    'B2',
    'frost-stat',
    'frost-thermostat-air',
    'Garage',
  );
  expect(told).toContain('an item reference is one or two capital letters and a number, as in Q1');
  expect(told).toContain('There is no “frost-stat” here');
  // What it brings about is said at once, before it is written.
  expect(told).toContain('no cable reaches B2 (frost-thermostat-air)');
});

test('cores one by one: a slip is told with its cause, and not written unless it is wanted so', async () => {
  const slip = ['W3 blue', 'E1.N', 'B1.NO', 'brown', 'no'];
  const { told, text } = await typing(...WORDS, '', ...slip);
  expect(told).toMatch(
    /move blue core of the room stat cable W3 from N to switched live back at the boiler E1/,
  );
  expect(text).toContain('BU: { ends: [E1.call return, B1.NO], sleeve: BN }');
  const unknown = await typing(
    ...WORDS,
    '',
    'W3 blue',
    'E1.call retrun',
    'E1.call return',
    'B1.NO',
    'brown',
  );
  expect(unknown.told).toContain('did you mean E1.call return?');
});

test('cores as a table, read as npm run import reads one', async () => {
  const { text, told } = await typing(...WORDS, '', 'none.csv', 'wiring.csv', '', '');
  expect(told).toContain('There is no file none.csv');
  expect(text).toMatch(
    /W1:\n {4}kind: twin and earth\n {4}size: 2\.5\n {4}earthSize: 1\.5\n {4}length: 9\n/,
  );
  expect(problemsOf(text)).toEqual([]);
});

test('a new cable and a new mode, with what must be seen', async () => {
  const stat = ['B2', 'frost-thermostat-air', 'Garage', 'yes', ''];
  const cable = (core: string, from: string, to: string, sleeve: string) => [
    core,
    from,
    to,
    sleeve,
  ];
  const { text, told, over } = await typing(
    ...WORDS,
    ...stat,
    ...[...cable('W4 brown', 'E1.call feed', 'B2.COM', ''), 'flex', '0.75', '', '4', 'yes'],
    ...[...cable('W4 blue', 'E1.call return', 'B2.NO', 'brown'), 'yes'],
    ...[...cable('W4 green-yellow', 'E1.E', 'B2.E', '')],
    '',
    'heating',
    ...Array(60).fill(''),
  );
  expect(text).toContain(
    'W4: { kind: flex, size: 0.75, length: 4, cores: { BN: [E1.call feed, B2.COM],',
  );
  expect(told).toContain('What must be seen:');
  expect(told).toMatch(/E1 .*: Boiler firing \[yes\]/);
  expect(over).toBe(true);
  expect(problemsOf(text)).toEqual([]);
});
