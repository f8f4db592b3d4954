import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type SearchProblem, solveSequence } from '../../src/diagnosis/search/index.ts';
import {
  LOCK_FILE,
  type LockLine,
  lineOf,
  NO_LOCK,
  openLock,
  problemHash,
  sealOf,
  writeLock,
} from '../../src/reference/lock.ts';
import { keepingSolver } from '../../src/reference/solver.ts';
import { treeFrom, treeText } from '../../src/reference/tree-text.ts';
import { smallProblem } from '../diagnosis/search/small.ts';
import { property } from '../support/property.ts';
import type { Random } from '../support/random.ts';

/**
 * Four faults of one likelihood, two tests of a minute that part them two and two: any order
 * takes two minutes, and three of the four ends can be reached by no test alone.
 */
const problem: SearchProblem = {
  faults: [0, 1, 2, 3].map((repair) => ({ weight: 1, repair })),
  tests: [
    { id: 'first', minutes: 1, mode: 0, place: -1, answers: [0, 0, 1, 1] },
    { id: 'second', minutes: 1, mode: 0, place: -1, answers: [0, 1, 0, 1] },
    { id: 'nothing', minutes: 1, mode: 0, place: -1, answers: [0, 0, 0, 0] },
  ],
  modeMinutes: [0],
  placeMinutes: [],
  start: { mode: 0, opened: [] },
};
/** The same with a test that costs more. */
const other: SearchProblem = {
  ...problem,
  tests: problem.tests.map((test, i) => ({ ...test, minutes: i + 1 })),
};
const line = lineOf('plain/anything', problem, solveSequence(problem), 'code');
const otherLine = lineOf('other/anything', other, solveSequence(other), 'code');

let folder: string;
let file: string;
let said: string[];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lock-'));
  file = join(folder, LOCK_FILE);
  said = [];
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const name = () => relative('.', file);
const open = () => openLock([file], (words) => said.push(words));
/** The lock with a line as somebody has changed it, beside one that is right. */
function openWith(changed: Partial<LockLine>) {
  writeLock(file, [{ ...line, ...changed }, otherLine]);
  return open();
}
/** The line with the seal of its changed fields: wrong, but not edited by hand. */
const sealed = (changed: Partial<LockLine>): Partial<LockLine> => ({
  ...changed,
  seal: sealOf({ ...line, ...changed }),
});

describe('a tree in one line', () => {
  property('is read back as the tree that the search found', 300, (from: Random) => {
    const drawn = smallProblem(from);
    const { tree } = solveSequence(drawn);
    expect(treeFrom(drawn, treeText(tree))).toEqual(tree);
  });

  it('is short', () => expect(line.tree).toBe('0 1 . . 1 . .'));
});

describe('a lock', () => {
  it('gives what the search found, and nothing is searched for', () => {
    writeLock(file, [line, otherLine]);
    const solver = keepingSolver({ folder: null, lock: open(), budget: 0 });
    expect(solver.has(problem)).toBe(true);
    expect(solver.solve(problem)).toEqual({ ...solveSequence(problem), code: 'code', file });
    expect(solver.solve(other).minutes).toBe(solveSequence(other).minutes);
    expect(said).toEqual([]);
  });

  it('holds one problem a line, by what it is for, each once, and the same every time', () => {
    writeLock(file, [line, otherLine, line]);
    const text = readFileSync(file, 'utf8');
    expect(text.split('\n').map((row) => row.slice(0, 24))).toEqual([
      '{"format":1,"sequences":',
      '{"for":"other/anything",',
      '{"for":"plain/anything",',
      ']}',
      '',
    ]);
    writeLock(file, [otherLine, line]);
    expect(readFileSync(file, 'utf8')).toBe(text);
  });

  it('is sound until something asked of it is refused', () => {
    writeLock(file, [line, otherLine]);
    const lock = open();
    lock.find(problem);
    expect(lock.isSound).toBe(true);
    const wrong = openWith(sealed({ minutes: 0.5 }));
    expect(wrong.isSound).toBe(true);
    wrong.find(problem);
    expect(wrong.isSound).toBe(false);
    writeFileSync(file, '{');
    expect(open().isSound).toBe(false);
    expect(NO_LOCK.isSound).toBe(true);
  });

  it('says how far from proven a tree is', () => {
    const bound = line.minutes * 0.75;
    const { gap, proven, lowerBound } = openWith(sealed({ bound })).find(problem)!;
    expect([proven, lowerBound]).toEqual([false, bound]);
    expect(gap).toBeCloseTo(0.25, 12);
    expect(said).toEqual([]);
  });

  it('has figures by which a version changes: what trees are, not what they are called', () => {
    const figures = open().figures;
    writeLock(file, [line]);
    const one = open().figures;
    writeLock(file, [{ ...line, for: 'renamed/anything' }]);
    const renamed = open().figures;
    expect(JSON.parse(one)).toEqual([[line.problem, line.minutes, line.bound, line.tree]]);
    expect([renamed, figures]).toEqual([one, '[]']);
  });

  it('that cannot be read is told of and passed over', () => {
    mkdirSync(file);
    expect(open().find(problem)).toBeUndefined();
    expect(said).toEqual([expect.stringMatching(/is passed over: it cannot be read \(EISDIR/)]);
  });

  it('is empty where there is no file', () => {
    expect(open().find(problem)).toBeUndefined();
    expect(said).toEqual([]);
  });

  it('knows a problem by what its trees depend on, and by nothing else', () => {
    const hash = problemHash(problem);
    const like: SearchProblem = {
      ...problem,
      tests: problem.tests.map((test, i) => ({
        ...test,
        id: `called ${i}`,
        answers: Uint16Array.from(test.answers),
      })),
    };
    expect(problemHash(like)).toBe(hash);
    const [first, ...faults] = problem.faults;
    const [test, ...tests] = problem.tests;
    const changes: Partial<SearchProblem>[] = [
      { faults: [{ ...first!, weight: 2 }, ...faults] },
      { faults: [{ ...first!, repair: 1 }, ...faults] },
      { tests: [{ ...test!, minutes: 2 }, ...tests] },
      { tests: [{ ...test!, answers: [1, 0, 1, 1] }, ...tests] },
      { tests: [{ ...test!, mode: 1 }, ...tests] },
      { tests: [{ ...test!, place: 0 }, ...tests] },
      { tests },
      { modeMinutes: [1] },
      { placeMinutes: [1] },
      { start: { mode: 1, opened: [] } },
      { start: { mode: 0, opened: [0] } },
      { openingMode: 0 },
      { openingMode: 1 },
      { rules: { coversOn: { minutes: 1, share: 0.1 }, openBox: { minutes: 1, share: 0.1 } } },
      { rules: { coversOn: { minutes: 2, share: 0.1 }, openBox: { minutes: 1, share: 0.1 } } },
    ];
    const hashes = changes.map((change) => problemHash({ ...problem, ...change }));
    expect(new Set([hash, ...hashes]).size).toBe(1 + changes.length);
  });

  it('tells of lines that nothing asked for', () => {
    writeLock(file, [line, otherLine]);
    const lock = open();
    lock.find(problem);
    expect(lock.unused(file).map((one) => one.for)).toEqual(['other/anything']);
    expect(lock.unused('another file')).toEqual([]);
  });
});

describe('a line that is wrong is refused, said plainly, and the others stand', () => {
  it.each<[string, Partial<LockLine>, string]>([
    ['other minutes', { minutes: 1.5 }, 'it says 1.5 minutes, but its tree takes 2'],
    [
      'no test of the problem',
      { tree: '0 7 . . 1 . .' },
      'its tree says 7 for a test; there are 0 to 2',
    ],
    [
      'words in the tree',
      { tree: '0 x . . 1 . .' },
      'its tree says x for a test; there are 0 to 2',
    ],
    [
      'a test that tells nothing',
      { tree: '0 2 . . 1 . .' },
      'its tree takes nothing where it tells nothing',
    ],
    [
      'an end too early',
      { tree: '0 . 1 . .' },
      'its tree ends where 2 faults can still be told apart',
    ],
    ['a tree cut short', { tree: '0 1 . . 1 .' }, 'its tree is cut short'],
    ['a tree too long', { tree: '0 1 . . 1 . . .' }, 'its tree goes on after its last end: .'],
    ['a bound above its minutes', { bound: 2.5 }, 'its bound of 2.5 is above its 2 minutes'],
    [
      'a lower bound',
      { bound: 1.9 },
      'it was changed since it was written, its seal is of another line',
    ],
    [
      'other states',
      { states: 9 },
      'it was changed since it was written, its seal is of another line',
    ],
    [
      'other code',
      { code: 'mine' },
      'it was changed since it was written, its seal is of another line',
    ],
    [
      'as good a tree',
      { tree: '1 0 . . 0 . .' },
      'it was changed since it was written, its seal is of another line',
    ],
    [
      'minutes sealed',
      sealed({ minutes: 1.5, bound: 1.5 }),
      'it says 1.5 minutes, but its tree takes 2',
    ],
    ['a bound sealed', sealed({ bound: 2.5 }), 'its bound of 2.5 is above its 2 minutes'],
  ])('%s', (_, changed, why) => {
    const lock = openWith(changed);
    const solver = keepingSolver({ folder: null, lock });
    expect(solver.solve(problem)).toEqual(solveSequence(problem));
    expect(solver.solve(other)).toEqual({ ...solveSequence(other), code: 'code', file });
    lock.find(problem);
    expect(said).toEqual([
      `${name()}:3: plain/anything is refused: ${why}. It is searched for anew within the build’s budget; to write it anew: npm run build -- --prove`,
    ]);
  });

  it('a field missing, or of no meaning', () => {
    writeLock(file, [otherLine, line]);
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace('"minutes":2,', '"minutes":-2,'));
    expect(open().find(problem)).toBeUndefined();
    writeFileSync(file, text.replace('"minutes":2,', ''));
    expect(open().find(other)).toBeDefined();
    expect(said.map((words) => words.slice(name().length))).toEqual([
      ': sequence 2 is refused: minutes Too small: expected number to be >=0. To write it anew: npm run build -- --prove',
      ': sequence 2 is refused: minutes Invalid input: expected number, received undefined. To write it anew: npm run build -- --prove',
    ]);
  });
});

describe('a file that is no lock of this version is passed over, said plainly', () => {
  const anew =
    'Its sequences are searched for anew within the build’s budget. Take it from the repository again, or write it anew: npm run build -- --prove';
  it.each([
    ['cut short', (text: string) => text.slice(0, 80), /^it is not whole JSON \(.+\)$/],
    ['empty', () => '', /^it is not whole JSON \(.+\)$/],
    [
      'with the marks of a merge',
      (text: string) => `<<<<<<< ours\n${text}`,
      /^it is not whole JSON \(.+\)$/,
    ],
    [
      'of another version',
      (text: string) => text.replace('"format":1', '"format":2'),
      /^it is of format 2, and this version reads 1$/,
    ],
    ['of something else', () => '[]', /^it is no lock of sequences$/],
    ['without its list', () => '{"format":1,"sequences":{}}', /^it holds no list of sequences$/],
  ])('%s', (_, spoil, why) => {
    writeLock(file, [line, otherLine]);
    const spoilt = spoil(readFileSync(file, 'utf8'));
    writeFileSync(file, spoilt);
    const solver = keepingSolver({ folder: null, lock: open() });
    expect(solver.solve(problem)).toEqual(solveSequence(problem));
    expect(said).toHaveLength(1);
    const [before, reason] = said[0]!.split(' is passed over: ');
    expect(before).toBe(name());
    expect(reason).toMatch(new RegExp(`${anew.replaceAll('.', '\\.')}$`));
    expect(reason!.slice(0, -anew.length - 2)).toMatch(why);
    expect(readFileSync(file, 'utf8')).toBe(spoilt);
  });
});
