import { describe, expect, test } from 'vitest';
import { checkEntries, formatProblem } from '../../src/entries/index.ts';
import { edited, type Folder, inMemory, ROOT, textOf, valid } from './fixture.ts';

const BENCH = 'systems/plain-bench.mdx';
const LINE = 'A heater and a knob, and nothing between them.';

/** What is told of a folder's texts, each as file, place, code and message. */
const told = (folder: Folder): string[] =>
  checkEntries(ROOT, inMemory(folder))
    .warnings.filter(({ code }) => code.startsWith('text-'))
    .map(
      ({ file, position, code, message }) =>
        `${file}:${position.line}:${position.column} ${code}: ${message}`,
    );

const recognised = (line: string) => edited(BENCH, [LINE, line]);
const body = (prose: string) => edited(BENCH, ['The plainest arrangement there is.', prose]);

describe('what a text says and the entry knows otherwise is told', () => {
  test.each<readonly [Folder, string]>([
    [
      recognised('A white, a grey and a blue core leave the knob.'),
      ':7:5 text-colour: no core of this system is white\n:7:5 text-colour: no core of this system is grey',
    ],
    [
      body('Its brown and orange cores meet.'),
      ':68:15 text-colour: no core of this system is orange',
    ],
    [recognised('W2 and W7 leave the heater.'), ':7:5 text-item: this system has no W7'],
    [body('S4 calls it.'), ':68:1 text-item: this system has no S4'],
    [recognised('A five-core flex.'), ':7:5 text-cores: no cable of this system has 5 cores'],
    [recognised('A 4-core cable.'), ':7:5 text-cores: no cable of this system has 4 cores'],
    [
      recognised('A spur with a 13 A fuse.'),
      ':7:5 text-fuse: nothing in this system is rated 13 A',
    ],
    [
      recognised('A condensate pump, and no mid-position valve.'),
      ':7:5 text-feature: a line of recognition names what this system has not: condensate pump',
    ],
    [
      recognised('Two-port valves and a wiring centre.'),
      ':7:5 text-feature: a line of recognition names what this system has not: two-port valves\n:7:5 text-feature: a line of recognition names what this system has not: wiring centre',
    ],
    [
      body('It meets at terminal 7.'),
      ':68:13 text-terminal: no item of this system has a terminal 7',
    ],
    [body('A twelve-way wiring centre.'), ':68:3 text-ways: no box of this system has 12 ways'],
    [
      body('The call feed shows 230 V.'),
      ':68:21 text-figure: a figure is typed where the page can compute it',
    ],
  ])('of a system, %#', (folder, said) => {
    expect(told(folder)).toEqual(said.split('\n').map((line) => BENCH + line));
  });

  test('of a rule: a limit that it no longer has', () => {
    const folder = edited('standards/small-fuse.mdx', ['ratings: [3]', 'ratings: [5]']);
    expect(told(folder)).toEqual([
      'standards/small-fuse.mdx:2:8 text-limit: the rule has no such limit as 3 A',
    ]);
  });

  test('of any entry: a link to a page that is not there', () => {
    const link = (to: string) =>
      told(edited('glossary/spur.mdx', ['\n---\n', `\n---\n\nSee [there](${to}).\n`]));
    expect(link('/procedures/make-ded/')).toEqual([
      expect.stringMatching(
        /^glossary\/spur\.mdx:\d+:13 text-link: there is no page procedures\/make-ded to lead to$/,
      ),
    ]);
    for (const to of [
      '/procedures/make-dead/#tools',
      '/systems/plain-bench/readings/',
      '/planner/',
    ])
      expect(link(to)).toEqual([]);
  });

  test('of a copy: a summary that stands in another entry of its kind', () => {
    const copied = textOf(BENCH).replace('title: Plain bench', 'title: Second bench');
    expect(told({ ...valid, 'systems/second-bench.mdx': copied })).toEqual([
      `systems/second-bench.mdx:3:10 text-copied: ${BENCH} has this very summary too`,
    ]);
  });

  test('with what is found, what is there and what to do', () => {
    const [problem] = checkEntries(
      ROOT,
      inMemory(recognised('A black core leaves the knob.')),
    ).warnings.filter(({ code }) => code === 'text-colour');
    expect(formatProblem(problem!)).toContain('allowed  brown, blue, green-yellow');
    expect(formatProblem(problem!)).toContain('found    black');
  });
});

test.each([
  recognised('A brown and a blue core leave the knob, and no white one.'),
  recognised('Without a white core, no black core, its green and yellow core at the heater.'),
  recognised('A three-core flex to the heater, two-core flex to the knob, no five-core cable.'),
  recognised('Two cores with the earth: a two-core cable and earth behind a 3 A fuse.'),
  recognised('A green light, a white heater, a grey knob on a M4 screw, 13 A sockets beside it.'),
  body('A 13 A fuse takes the protection away. Q1 feeds E1 over W2 and it shows.'),
  body('It reads <Reading at="E1.call feed" mode="calling" /> there.'),
])('nothing is told of what is so, or speaks of something else, %#', (folder) => {
  expect(told(folder)).toEqual([]);
});
