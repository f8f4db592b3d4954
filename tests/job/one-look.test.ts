import { describe, expect, test } from 'vitest';
import { simulate } from '../../src/circuit/index.ts';
import { addEntry, newJob } from '../../src/job/job.ts';
import { lastAct } from '../../src/job/last-act.ts';
import { enterOneOf, isSaidByAnother } from '../../src/job/one-look.ts';
import { provingModes } from '../../src/job/proving.ts';
import { recordOf } from '../../src/job/record.ts';
import { sheetOf } from '../../src/job/sheet.ts';
import { askedText, partVoltsWhy } from '../../src/job/words.ts';
import { shippedNetworks } from '../support/content.ts';

const ID = 'heat-only-mid-position';
const sheets = new Map(
  [...shippedNetworks()].map(([id, network]) => [id, sheetOf(simulate(network))]),
);
const sheet = sheets.get(ID)!;
const begun = () =>
  newJob(
    { id: ID, title: sheet.title, wiring: sheet.wiring, mode: 'heating' },
    { name: 'No heat', place: '' },
  );
const positions = ['Q2.at hot water', 'Q2.at mid', 'Q2.at heating'];

test('a valve of three positions is one look, a valve that is open or shut is as it was', () => {
  for (const [id, { outcomes }] of sheets) {
    const several = outcomes.filter(({ oneOf }) => oneOf.length > 0).map((one) => one.id);
    expect([id, several]).toEqual([id, id === ID ? positions : []]);
  }
  const asked = positions.map((outcome) =>
    askedText(sheet, { kind: 'look', mode: 'both', outcome }),
  );
  expect(new Set(asked)).toEqual(new Set(['Three-port mid-position valve: where does it stand?']));
});

describe('where the valve was felt at heating', () => {
  const before = begun();
  const job = enterOneOf(before, 'both', 'Q2.at heating', positions);

  test('all three are answered, and one is said', () => {
    const answers = job.entries.map(
      ({ observation: o }) => o.kind === 'look' && [o.outcome, o.answer],
    );
    expect(answers).toEqual([
      ['Q2.at hot water', 'not seen'],
      ['Q2.at mid', 'not seen'],
      ['Q2.at heating', 'seen'],
    ]);
    const said = job.entries.filter((entry) => !isSaidByAnother(sheet, job.entries, entry));
    expect(said).toEqual([job.entries[2]]);
    const [found] = recordOf(sheet, job).found;
    expect(found!.looks).toHaveLength(1);
    expect(lastAct(sheet, before, job)).toMatch(/^valve lever slack over its full travel/);
  });

  test('in another mode, or without it, what it is not is said still', () => {
    const other = addEntry(job, {
      kind: 'look',
      mode: 'heating',
      outcome: 'Q2.at mid',
      answer: 'not seen',
    });
    expect(isSaidByAnother(sheet, other.entries, other.entries.at(-1)!)).toBe(false);
    expect(isSaidByAnother(sheet, job.entries.slice(0, 2), job.entries[0]!)).toBe(false);
  });
});

test('what proves a mode asks for the position that is due, and no other', () => {
  for (const { mode, looks } of provingModes(sheet, begun())) {
    const asked = looks.filter(({ outcome }) => positions.includes(outcome.id));
    expect([mode.id, asked.map(({ due }) => due)]).toEqual([mode.id, ['seen']]);
  }
});

/** Ghost volts collapse under load, a holding circuit's do not (common practice, no source). */
test('part volts are explained with the first such answer, and once', () => {
  const reading = (answer: 'between' | 'live') =>
    ({
      kind: 'live',
      mode: 'both',
      from: 'X1.6',
      to: 'X1.N',
      instrument: 'multimeter',
      answer,
    }) as const;
  const why = partVoltsWhy(begun(), reading('between'));
  expect(why).toMatch(/ghost voltage.*holding circuit/);
  expect(partVoltsWhy(begun(), reading('live'))).toBe('');
  expect(partVoltsWhy(addEntry(begun(), reading('between')), reading('between'))).toBe('');
});
