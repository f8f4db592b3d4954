import { z } from 'zod';
import { PEOPLE } from '../../schemas/index.ts';
import { FAMILIES, type Family, HISTORIES } from '../diagnosis/faults/index.ts';
import { ANSWERS, compactRows } from '../diagnosis/inference/index.ts';
import { soundWeight } from '../diagnosis/sequences/index.ts';
import { baseMinutes, modeMinutes, openingMinutes, type Test } from '../diagnosis/tests/index.ts';
import type { ComputedSystem } from '../reference/compute.ts';

const number = z.number();
const text = z.string();
const whole = z.int().nonnegative();

const TestRow = z.strictObject({
  id: text,
  kind: z.enum(['look', 'live', 'dead', 'fuse', 'act']),
  mode: text,
  place: text
    .nullable()
    .meta({ description: 'Place that must stand open, as in B1/backplate; null for none' }),
  minutes: number.meta({ description: 'Of the test alone, minutes' }),
  about: text.meta({ description: 'Id of the pair, the outcome, or the fuse’s branch' }),
});

const FaultRow = z.strictObject({
  id: text,
  origin: z.enum(['part', 'connection', 'wiring mistake', 'setting']),
  title: text,
  repair: text,
  repairKey: text.meta({ description: 'Faults that share one need not be told apart' }),
  proving: text.meta({ description: 'What is tried after the repair' }),
  who: z.enum(PEOPLE).meta({ description: 'Who may do the repair' }),
  family: z.enum(Object.keys(FAMILIES) as [Family, ...Family[]]).meta({
    description: 'Family whose share it is a part of',
  }),
  shares: z.record(z.enum(HISTORIES), number).meta({
    description: 'Its share of all faults of the system, by history',
  }),
  intermittent: number.nullable().meta({
    description:
      'Chance that one look finds it behaving well where it comes and goes; null where it does not',
  }),
  hazard: text.nullable(),
  weight: number.meta({ description: 'Its share where the system worked until now' }),
  row: whole.meta({ description: 'Index of its answers among the rows' }),
});

/** What may be wrong, what may be tested, at what cost, and what every test then answers. */
export const DiagnosisData = z.strictObject({
  answers: z.array(text).meta({ description: 'Every answer a test can give, by code' }),
  tests: z.array(TestRow),
  rows: z.array(text).meta({
    description: 'Different rows of answers, one base-36 digit a test: its code; first the sound',
  }),
  faults: z.array(FaultRow),
  soundWeight: number.meta({
    description: 'Weight of the sound circuit where a sequence holds it open',
  }),
  modeMinutes: z
    .record(text, z.record(text, number))
    .meta({ description: 'Minutes to bring a mode about, from each mode to each' }),
  placeMinutes: z.record(text, number).meta({
    description: 'Minutes to open a place, once in a sequence; places are opened isolated',
  }),
});
export type DiagnosisData = z.infer<typeof DiagnosisData>;

/** The open form of a system's faults and tests. */
export function diagnosisData({ network, signatures }: ComputedSystem): DiagnosisData {
  const { tests, rows, faults } = compactRows(signatures);
  const rowOf = new Map(faults);
  const modes = Object.keys(network.system.modes);
  const places = [...new Set(signatures.tests.flatMap((test) => test.place ?? []))];
  return {
    answers: [...ANSWERS],
    tests: signatures.tests.map((test, i) => ({
      id: tests[i]!,
      kind: test.kind,
      mode: test.mode,
      place: test.place,
      minutes: baseMinutes(network, test),
      about: aboutOf(test),
    })),
    rows: [...rows],
    faults: [...signatures.faults.map(({ fault }) => fault), ...signatures.silent].map(
      ({ edit, circuit, class: _kind, source, ...fault }) => ({
        ...fault,
        row: rowOf.get(fault.id)!,
      }),
    ),
    soundWeight: soundWeight(signatures),
    modeMinutes: Object.fromEntries(
      modes.map((from) => [
        from,
        Object.fromEntries(modes.map((to) => [to, modeMinutes(network, from, to)])),
      ]),
    ),
    placeMinutes: Object.fromEntries(places.map((item) => [item, openingMinutes(network, item)])),
  };
}

function aboutOf(test: Test): string {
  if (test.kind === 'look') return test.outcome;
  if (test.kind === 'act') return test.points.join('|');
  return test.kind === 'fuse' ? test.branch : test.pair.id;
}
