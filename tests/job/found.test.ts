import { expect, test } from 'vitest';
import { addEntry, newJob } from '../../src/job/job.ts';
import { Observation } from '../../src/job/job-schema.ts';
import { marksOf } from '../../src/job/ui/found.tsx';

const begun = newJob(
  { id: 'combi-two-wire', title: 'Combi', wiring: 1, mode: 'heating' },
  { name: '', place: '' },
);
const read = (answer: unknown) =>
  addEntry(
    begun,
    Observation.parse({
      kind: 'live',
      mode: 'heating',
      from: 'E1.L',
      to: 'E1.N',
      instrument: 'tester',
      answer,
    }),
  );

// Above the limits is no less live: never drawn as no volts.
test.each([
  ['live', 'live'],
  ['high', 'live'],
  ['dc', 'live'],
  ['dead', 'dead'],
  ['no dc', 'dead'],
  ['between', 'other'],
  [{ volts: 400, current: 'ac' }, 'live'],
  [{ volts: 3.5, current: 'ac' }, 'dead'],
  [{ volts: 90, current: 'ac' }, 'other'],
])('what was read as %j is marked %s on the drawing', (answer, mark) => {
  expect([...marksOf(read(answer))]).toEqual([['E1.L', mark]]);
});
