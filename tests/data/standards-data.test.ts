import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { StandardsData, standardsData } from '../../src/data/index.ts';
import { checkEntries } from '../../src/entries/index.ts';
import { computeSystem } from '../../src/reference/compute.ts';
import { edited, inMemory, ROOT } from '../entries/fixture.ts';

const PLAIN = 'systems/plain-bench.mdx';
const EXCEPTION =
  '{ standard: small-fuse, why: An older bench, by: The bench, from: "2026-01-01", until: "2026-12-31" }';

/** The data of the bench with a fuse its standard does not allow, on a day. */
function dataOn(date: string) {
  const folder = edited(
    PLAIN,
    ['ratings: { fuse: 3 }', 'ratings: { fuse: 13 }'],
    ['checked: 2025-03-01', `exceptions:\n  - ${EXCEPTION}\nchecked: 2025-03-01`],
  );
  const { entries, judgements } = checkEntries(ROOT, inMemory(folder), { today: date });
  const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
  const systems = new Map(
    [...entries.systems].map(([id, entry]) => [id, computeSystem(entry, devices)] as const),
  );
  return standardsData({ entries, systems, judgements, built: { version: '0', date } });
}

describe('the open form of the house standards', () => {
  const data = dataOn('2026-07-01');

  it('is what its schema says, and the schema can be written as JSON Schema', () => {
    expect(StandardsData.parse(JSON.parse(JSON.stringify(data)))).toEqual(data);
    expect(z.toJSONSchema(StandardsData)).toMatchObject({ type: 'object' });
  });

  it('says what is excepted, why, by whom and how long, and where it stands', () => {
    const found = data.verdicts.find(({ system }) => system === 'plain-bench');
    expect(found).toMatchObject({
      standard: 'small-fuse',
      state: 'excepted',
      findings: [],
      excepted: [
        {
          at: 'Q1',
          path: 'items.Q1.ratings.fuse',
          line: 10,
          found: '13 A',
          exception: { why: 'An older bench', by: 'The bench', until: '2026-12-31' },
        },
      ],
    });
  });

  it('says so too when the exception has ended', () => {
    const found = dataOn('2027-01-01').verdicts.find(({ system }) => system === 'plain-bench');
    expect(found).toMatchObject({ state: 'breached', excepted: [], findings: [{ line: 10 }] });
  });

  it('gives each check with its limits and in words', () => {
    expect(data.standards).toMatchObject([
      {
        id: 'small-fuse',
        rule: { check: 'fuse rating', standard: 'BS 1362', ratings: [3], families: ['isolation'] },
        words: expect.stringContaining('of 3 A'),
      },
    ]);
  });
});
