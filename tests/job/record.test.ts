import { describe, expect, test } from 'vitest';
import {
  addEntry,
  addRemark,
  addRepair,
  changeJob,
  enterFound,
  type Job,
  newJob,
  setFinished,
  setLook,
} from '../../src/job/job.ts';
import { provingModes, setAsDue } from '../../src/job/proving.ts';
import { recordOf, recordText } from '../../src/job/record.ts';
import { ohms } from '../../src/units/index.ts';
import { systemForJob } from './systems.ts';

const { sheet } = systemForJob('heat-only-condensate-pump').engine;
const how = { now: () => '2026-03-02T09:00:00.000Z', id: () => crypto.randomUUID() };

const read = (job: Job, from: string, answer: 'live' | 'dead') =>
  addEntry(
    job,
    { kind: 'live', mode: 'heating', from, to: 'X1.N', instrument: 'tester', answer },
    '',
    how,
  );

/** An invented call-out. */
function ordinaryJob(): Job {
  let job = newJob(
    { id: sheet.id, title: sheet.title, wiring: sheet.wiring, mode: 'heating' },
    {
      name: 'No heat upstairs',
      place: '12 Mill Lane',
      complaint: { id: 'no-heating-hot-water-works', words: 'No heating, hot water is fine' },
    },
    how,
  );
  job = setLook(job, 'heating', 'E1.display', 'seen', how);
  job = setLook(job, 'heating', 'E1.burner', 'not seen', how);
  job = setLook(job, 'heating', 'Q2.open', 'seen', how);
  job = read(read(job, 'X1.4', 'live'), 'X1.7', 'dead');
  job = addRepair(job, 'Heating valve Q2, end switch slipped. New head fitted', how);
  const modes = provingModes(sheet, job, () => 'live');
  job = setAsDue(job, modes.find(({ mode }) => mode.id === 'heating')!);
  job = read(job, 'X1.7', 'live');
  job = addRemark(
    job,
    { place: 'Wiring centre', text: 'No cord grip', code: 'C3', photo: null },
    how,
  );
  return changeJob(job, { by: 'A. Fitter' }, how);
}

describe('the record of an ordinary job', () => {
  test('reads as a colleague would write it', () => {
    const text = recordText(sheet, ordinaryJob()).replace(/^Begun .*$/m, 'Begun');
    expect(text).toMatchInlineSnapshot(`
      "No heat upstairs
      12 Mill Lane
      Heat-only boiler with pump overrun, two-port valves and condensate pump
      Begun

      Customer reported: no heating, hot water is fine. It worked until now.

      Found
      - Heating only: boiler not firing (E1); boiler display lit (E1); heating valve: valve lever slack, valve open (Q2)

      Readings
      - Wiring centre, room calls to neutral bar (terminal 4 to N at X1), heating only: live
      - Wiring centre, boiler call to neutral bar (terminal 7 to N at X1), heating only: no volts; after the repair: live

      Repaired
      - Heating valve Q2, end switch slipped. New head fitted

      Proved
      - Heating only: all as it should be, 14 things looked at

      Not proved, or not wholly
      - Nothing calling (a safety device)
      - Satisfied (a safety device)
      - Condensate high (a safety device)

      Not tried
      - Hot water only, Heating and hot water, Condensate being pumped

      Noticed beside the fault
      - Wiring centre: no cord grip. C3, improvement recommended

      For the customer
      - You told us: “No heating, hot water is fine”. We found the cause at the heating valve and have put it right. We then ran the system, and it worked as it should. We noticed something else that wants attention; it is listed in this record.

      In an emergency
      - You smell gas: touch no switch, no flames. Gas off at the meter if that is safe (not in a cellar), doors and windows open, everyone out. From outside ring the gas emergency service, 0800 111 999 (Northern Ireland 0800 002 001; gas from a tank or bottle: the number on it).
      - A carbon monoxide alarm sounds: gas and other fuel appliances off, doors and windows open, everyone out, and ring the same number. Anyone ill: 999.
      - Water on anything electrical: do not touch it. Power off at the fuse board if you can get there dry, and off it stays until an electrician or heating engineer has looked.
      "
    `);
  });

  test('holds the latest of the same look in the same round', () => {
    const again = {
      ...ordinaryJob().entries[1]!,
      id: 'again',
      observation: {
        kind: 'look',
        mode: 'heating',
        outcome: 'E1.burner',
        answer: 'comes and goes',
      },
    } as const;
    const job = ordinaryJob();
    const { found } = recordOf(sheet, { ...job, entries: [...job.entries, again] });
    const burner = found.flatMap(({ looks }) => looks).filter(({ code }) => code === 'E1');
    expect(burner.map(({ words }) => words)).toEqual([
      'boiler firing, coming and going',
      'boiler display lit',
    ]);
  });
});

/** As the gas emergency service asks (consumer guides, seen): written here apart from the site. */
test('every slip says what to do at gas, a CO alarm, and water on electrics', () => {
  const text = recordText(sheet, ordinaryJob());
  const slip = text.slice(text.indexOf('In an emergency'));
  const [, gas, monoxide, water] = slip.split('\n');
  expect(gas).toMatch(
    /smell gas: touch no switch, no flames.*doors and windows open, everyone out\. From outside ring.*0800 111 999.*0800 002 001/,
  );
  expect(monoxide).toMatch(/carbon monoxide alarm.*everyone out.*same number.*ill: 999/i);
  expect(water).toMatch(/^- Water .*do not touch it.*fuse board if you can get there dry/);
  // The customer's own words may be typed over; these may not.
  const typed = recordText(sheet, { ...ordinaryJob(), customer: 'Ring me on Monday.' });
  expect(typed.slice(typed.indexOf('In an emergency'))).toBe(slip);
});

describe('what the customer is told', () => {
  const told = (change: Partial<Job>) => recordOf(sheet, { ...ordinaryJob(), ...change }).customer;
  const repaired = (text: string) => told({ repairs: [{ at: how.now(), text }] });

  test('holds no code, no terminal and no share of a ranking', () => {
    for (const one of [
      told({}),
      repaired('X1 7 remade'),
      repaired('Not found for certain (70 %, likely): K1 changed'),
    ])
      expect(one).not.toMatch(/\b[A-Z]\d|%|end switch/);
  });

  test('never says that something works which was not seen to', () => {
    expect(told({})).toContain('it worked as it should');
    expect(told({ entries: ordinaryJob().entries.filter(({ round }) => round === 0) })).toContain(
      'not tried it in full',
    );
    expect(told({ repairs: [] })).toContain('Nothing has been repaired yet');
  });

  test('says who has to see to it where it is handed over, and that danger was found', () => {
    expect(
      repaired('Boiler E1, board: Hand over to a Gas Safe registered engineer, with code.'),
    ).toContain('at the boiler that a Gas Safe registered engineer has to see to');
    const [remark] = ordinaryJob().remarks;
    expect(told({ remarks: [{ ...remark!, code: 'C1' }] })).toContain('something dangerous');
  });

  test('is what the engineer typed, where he typed it', () => {
    expect(told({ customer: 'Ring me on Monday.' })).toBe('Ring me on Monday.');
    expect(told({ remains: 'new lid, by us' })).toContain('Still to be done: new lid, by us.');
  });
});

test('what was only told is no finding, and an open job is not said to have been left unrepaired', () => {
  const told = newJob(
    { id: sheet.id, title: sheet.title, wiring: sheet.wiring, mode: 'heating' },
    { name: '', place: '', seen: [{ mode: 'heating', outcome: 'E1.burner', answer: 'not seen' }] },
  );
  expect(recordOf(sheet, told).found).toEqual([]);
  expect(recordText(sheet, told)).toContain('Repaired\n- Nothing repaired yet: the job is open.');
  const seen = enterFound(told, {
    kind: 'look',
    mode: 'heating',
    outcome: 'E1.burner',
    answer: 'not seen',
  });
  expect(recordOf(sheet, seen).found).toHaveLength(1);
  expect(recordText(sheet, setFinished(seen, true))).toContain('Repaired\n- Nothing was repaired.');
});

test('a resistance without a figure stands in the record with the band that it lies in', () => {
  const dead = (answer: 'resistance' | 'open' | { ohms: ReturnType<typeof ohms> }) =>
    addEntry(
      ordinaryJob(),
      { kind: 'dead', mode: 'isolated', from: 'X1.4', to: 'X1.7', answer },
      '',
      how,
    );
  const last = (job: Job) => recordOf(sheet, job).rows.at(-1)!.after;
  // As the printed sequences say it: over the limit of continuity, under that of insulation.
  expect(last(dead('resistance'))).toBe('a resistance, 2 Ω to 1 MΩ');
  expect(last(dead('open'))).toBe('open circuit');
  expect(last(dead({ ohms: ohms(47_000) }))).toBe('a resistance, 47 kΩ');
});
