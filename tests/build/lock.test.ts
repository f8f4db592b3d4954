import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { IndexData, SystemData } from '../../src/data/index.ts';
import { HISTORIES } from '../../src/diagnosis/index.ts';
import { LOCK_FILE, LONG_SEARCH, type LockLine } from '../../src/reference/index.ts';
import { DIST } from '../support/site-folder.ts';

const read = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));
const index = IndexData.parse(read(join(DIST, 'data/index.json')));
const { sequences } = read(join('content', LOCK_FILE)) as { sequences: LockLine[] };
const locked = new Map(sequences.map((line) => [line.for, line]));
const published = index.systems.flatMap(({ id, data }) =>
  SystemData.parse(read(join(DIST, 'data', data))).sequences.map((one) => {
    const history = one.history === HISTORIES[0] ? '' : `, ${one.history}`;
    return [`${id}/${one.id}${history}`, one] as const;
  }),
);

describe('a build with the lock', () => {
  test('holds all that takes long to search, and nothing that does not', () => {
    const long = published.filter(([, { expanded }]) => expanded >= LONG_SEARCH);
    expect(long.map(([name]) => name).toSorted()).toEqual([...locked.keys()].toSorted());
  });

  test('publishes the locked minutes, bounds and no others', () => {
    for (const [name, { minutes, lowerBound, expanded }] of published) {
      const line = locked.get(name);
      if (!line) continue;
      expect([minutes, lowerBound, expanded], name).toEqual([
        line.minutes,
        line.bound,
        line.states,
      ]);
    }
  });
});
