import { expect, test } from 'vitest';
import type { Observation } from '../../src/diagnosis/inference/index.ts';
import type { Asked } from '../../src/job/findings.ts';
import { nextSaid } from '../../src/job/next-words.ts';
import { enteredText, ohmsBand } from '../../src/job/words.ts';
import { lowerFirst } from '../../src/words/index.ts';
import { systemForJob } from './systems.ts';

const { sheet } = systemForJob('heat-only-condensate-pump').engine;

const reading = (answer: 'live' | 'dead'): Observation => ({
  kind: 'live',
  mode: 'heating',
  from: 'X1.7',
  to: 'X1.N',
  instrument: 'tester',
  answer,
});

test('what was entered is told by its verdict first: a line of a phone holds no more', () => {
  const due = { answer: 'live', figure: '229 V' } as const;
  expect(enteredText(sheet, reading('dead'), due)).toBe(
    'No volts; should be: live, 229 V (terminal 7 to N at X1).',
  );
  expect(enteredText(sheet, reading('live'), due)).toBe(
    'As it should be: live (terminal 7 to N at X1).',
  );
});

test.each([
  ['Boiler firing', 'boiler firing'],
  ['A resistance', 'a resistance'],
  ['MCB up', 'MCB up'],
  ['L to N at E1', 'L to N at E1'],
])('inside a sentence %s is %s', (text, inside) => {
  expect(lowerFirst(text)).toBe(inside);
});

// Common practice, no source.
test('a live is read to an earth only once that earth is proved', () => {
  const said = (from: string, to: string) => {
    const asked = { kind: 'live', mode: 'heating', from, to, instrument: 'tester', current: 'ac' };
    return nextSaid(sheet, { asked: asked as Asked, opens: true }, true).how;
  };
  expect(said('F2.live in', 'F2.E')).toMatch(/earth counts once it is proved/);
  expect(said('X1.7', 'X1.N')).toBe('');
  expect(said('X1.N', 'X1.E')).toBe('');
});

// As the printed sequences say them: continuity and insulation limits, see `limits.ts`.
test.each([
  ['joined', undefined, 'up to 2 Ω'],
  ['joined', 76.7, 'up to 77 Ω'],
  ['resistance', undefined, '2 Ω to 1 MΩ'],
  ['open', undefined, '1 MΩ or more'],
  ['live', undefined, ''],
] as const)('%s with %s Ω as its limit lies %s', (answer, limit, band) => {
  expect(ohmsBand(answer, limit)).toBe(band);
});

test('a look that is not made at the boiler says where it is made', () => {
  const said = (outcome: string) => {
    const asked: Asked = { kind: 'look', mode: 'heating', outcome };
    return nextSaid(sheet, { asked, opens: false }, false);
  };
  const { place } = sheet.items.find(({ ref }) => ref === 'E1')!;
  expect(said('E1.gas')).toMatchObject({ place: 'At the hob or the gas meter', where: '' });
  expect(said('E1.condensate pipe').place).toMatch(/^Outside/);
  expect(said('E1.burner').place).toBe(place);
});
