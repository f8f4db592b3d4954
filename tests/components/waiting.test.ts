import { describe, expect, test } from 'vitest';
import {
  afterwards,
  EVERYWHERE,
  groupsOf,
  type News,
  type NewsLine,
  readKey,
  SEVERAL,
  waitingFor,
} from '../../src/components/changes/waiting.ts';

const line = (id: string, rank: NewsLine['rank'], ...systems: string[]): NewsLine => ({
  id,
  rank,
  title: id,
  path: null,
  words: id,
  reason: null,
  systems: systems.map((name) => ({ id: name, title: name.toUpperCase() })),
});
const NEWS: News[] = [
  { name: '3', date: '2026-03-01', changes: [line('c', 'danger'), line('d', 'know')] },
  { name: '2', date: '2026-02-01', changes: [line('a', 'danger'), line('b', 'act')] },
  { name: '1', date: '2026-01-01', changes: [line('z', 'danger')] },
];
const ids = ({ danger, rest }: ReturnType<typeof waitingFor>) => [
  danger.map(readKey),
  rest.map(({ id }) => id),
];

describe('what a phone has not looked at', () => {
  test('is what came after the release that it looked at last', () => {
    expect(ids(waitingFor(NEWS, { from: '3', looked: '3', read: [] }))).toEqual([[], []]);
    expect(ids(waitingFor(NEWS, { from: '2', looked: '2', read: [] }))).toEqual([['3/c'], ['d']]);
    expect(ids(waitingFor(NEWS, { from: '1', looked: '1', read: [] }))).toEqual([
      ['3/c', '2/a'],
      ['d', 'b'],
    ]);
  });

  test('and what is dangerous until it is read, however often the rest was looked at', () => {
    expect(ids(waitingFor(NEWS, { from: '1', looked: '3', read: ['3/c'] }))).toEqual([['2/a'], []]);
  });

  test('is all that is told where the release looked at is older than all of them', () => {
    expect(ids(waitingFor(NEWS, { from: '0', looked: '0', read: [] }))[0]).toHaveLength(3);
  });

  test('is kept short once nothing waits', () => {
    const done = { from: '1', looked: '3', read: ['3/c', '2/a'] };
    expect(afterwards(NEWS, done)).toEqual({ from: '3', looked: '3', read: [] });
    for (const open of [
      { ...done, read: ['3/c'] },
      { ...done, looked: '2' },
    ])
      expect(afterwards(NEWS, open)).toEqual(open);
  });
});

test('changes stand once each, under the reader’s own systems first', () => {
  const lines = [
    line('of b', 'act', 'b'),
    line('of none', 'act'),
    line('of a and c', 'act', 'a', 'c'),
    line('of a', 'act', 'a'),
    line('of b and c', 'act', 'b', 'c'),
  ];
  const said = (mine: string[]) =>
    groupsOf(lines, mine).map(({ title, lines: own }) => [title, ...own.map(({ id }) => id)]);
  expect(said([])).toEqual([
    [EVERYWHERE, 'of none'],
    [SEVERAL, 'of a and c', 'of b and c'],
    ['A', 'of a'],
    ['B', 'of b'],
  ]);
  expect(said(['c', 'b'])).toEqual([
    ['C', 'of a and c', 'of b and c'],
    ['B', 'of b'],
    [EVERYWHERE, 'of none'],
    ['A', 'of a'],
  ]);
});
