import { expect, test } from 'vitest';
import { addEntry, addRemark, addRepair, leaveOut, newJob, withSystem } from '../../src/job/job.ts';
import { lastAct } from '../../src/job/last-act.ts';
import { systemForJob } from './systems.ts';

const { sheet } = systemForJob('combi-two-wire').engine;
const system = { id: sheet.id, title: sheet.title, wiring: sheet.wiring, mode: 'heating' };
const begun = newJob(system, { name: '', place: '' });
const look = { kind: 'look', mode: 'heating', outcome: 'E1.burner', answer: 'not seen' } as const;
const looked = addEntry(begun, look);

test.each([
  ['a look', begun, looked, /^boiler not firing \(E1\)/],
  ['taking it off', looked, begun, /^removed: boiler not firing \(E1\)/],
  [
    'putting it right',
    looked,
    {
      ...looked,
      entries: [{ ...looked.entries[0]!, observation: { ...look, answer: 'seen' as const } }],
    },
    /^put right: boiler firing \(E1\)/,
  ],
  ['several at once', begun, addEntry(addEntry(begun, look), look), /^2 findings entered$/],
  ['a repair', looked, addRepair(looked, 'Fuse'), /^the repair entered$/],
  ['what cannot be done', looked, leaveOut(looked, 'x'), /^what cannot be done here$/],
  [
    'something noticed',
    looked,
    addRemark(looked, { place: '', text: 'Cover missing', code: 'C1', photo: null }),
    /^what was noticed$/,
  ],
  [
    'the system',
    newJob(null, { name: '', place: '' }),
    withSystem(newJob(null, { name: '', place: '' }), system, {}),
    /^the system: Combi boiler/,
  ],
  ['words', looked, { ...looked, notes: 'x' }, /^the words entered$/],
])('undo says that it takes back %s', (_, before, after, said) => {
  expect(lastAct(sheet, before, after)).toMatch(said);
});
