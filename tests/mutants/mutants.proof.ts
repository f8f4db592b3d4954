import { describe, expect, it } from 'vitest';
import { SEED } from '../support/property.ts';
import { readLedger, scoreOf, UNEXPLAINED } from './ledger.ts';
import { node } from './node.ts';
import { ROOMS, type RoomName } from './rooms.ts';

/** Stretches of twelve lines whose mutants are run anew, others each time. */
const STRETCHES = 10;
describe.each(Object.keys(ROOMS) as RoomName[])('the ledger of %s', (room) => {
  it('holds at least the share of mutants killed that the room owes', () => {
    expect(scoreOf(readLedger(room))).toBeGreaterThanOrEqual(ROOMS[room].floor);
  });

  it('says of every mutant that lives why it may', () => {
    const entries = Object.entries(readLedger(room));
    const silent = entries.flatMap(([file, { survivors }]) =>
      survivors
        .filter(({ why }) => why === UNEXPLAINED || why === '')
        .map(({ was, becomes }) => `${file}: “${was}” as “${becomes}”`),
    );
    expect(silent).toEqual([]);
  });

  it('counts what it lists', () => {
    for (const { mutants, killed, survivors } of Object.values(readLedger(room))) {
      const living = survivors.reduce((sum, { times = 1 }) => sum + times, 0);
      expect(killed + living).toBe(mutants);
    }
  });
});

describe('the mutation tester', () => {
  it(`finds none alive beside those listed (${STRETCHES} stretches, seed ${SEED})`, () => {
    const run = node(
      process.cwd(),
      'tests/mutants/run.ts',
      ...['--sample', String(STRETCHES), '--seed', String(SEED)],
    );
    expect(run.status, run.stdout + run.stderr).toBe(0);
  });
});
