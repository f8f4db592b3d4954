import { z } from 'zod';
import { PEOPLE } from '../../schemas/index.ts';
import {
  FAMILIES,
  type Family,
  type FaultKind,
  HISTORIES,
  KINDS,
  OUR_SHARES,
  SEEN_SHARE,
  seenAt,
} from '../diagnosis/faults/index.ts';
import { instrumentFor } from '../diagnosis/index.ts';
import { ANSWERS, compactRows } from '../diagnosis/inference/index.ts';
import { soundWeight } from '../diagnosis/sequences/index.ts';
import {
  type ActTest,
  baseMinutes,
  INSTRUMENT_LOADS,
  INSULATION_OHMS,
  JOINED_OHMS,
  modeMinutes,
  NO_LOAD_OHMS,
  OPEN_OHMS,
  openingMinutes,
  shortOhms,
  type Test,
} from '../diagnosis/tests/index.ts';
import type { ComputedSystem } from '../reference/compute.ts';
import { EditData, editData } from './edit-data.ts';

const number = z.number();
const text = z.string();
const whole = z.int().nonnegative();

const ActRow = z.strictObject({
  does: z
    .enum(['prove', 'inside', 'compare', 'core', 'part', 'insulation', 'spindle', 'link'])
    .meta({
      description:
        'prove: whether any terminal of the place is live; inside: look in and tug each core; compare: each core with the wiring table; core: ohms between two cores of a cable, every core of it disconnected at that end; part: ohms between two terminals of a part, every core disconnected there, and with them any join that touches their ends; insulation: whether the insulation resistance of all points but the last, joined, to the last is under the limit of insulation with equipment connected; the points as of core where they are disconnected ends; spindle: whether the spindle of a valve turns, its head off; link: a link laid across a contact, and an outcome looked at',
    }),
  part: text.nullable().meta({ description: 'Item whose cores are disconnected' }),
  without: text.nullable().meta({ description: 'Condition taken away: the control turned down' }),
  outcome: text.nullable().meta({ description: 'What is looked at' }),
});

const TestRow = z.strictObject({
  id: text,
  kind: z.enum(['look', 'live', 'dead', 'fuse', 'act']),
  mode: text,
  place: text
    .nullable()
    .meta({ description: 'Place that must stand open, as in B1/backplate; null for none' }),
  minutes: number.meta({ description: 'Of the test alone, minutes' }),
  about: text.meta({ description: 'Id of the pair, the outcome, or the fuse’s branch' }),
  points: z.array(text).meta({
    description: 'Between which it is made, where it is; a disconnected end as W3.BN@1',
  }),
  instrument: text.nullable().meta({ description: 'That a live reading is worked out for' }),
  act: ActRow.nullable().meta({ description: 'What hands do; null for any other kind' }),
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
  kind: z.enum(Object.keys(KINDS) as [FaultKind, ...FaultKind[]]).meta({
    description: 'Kind within its family',
  }),
  edit: EditData,
  seen: z
    .strictObject({ inside: z.array(text), compare: z.array(text), spindle: z.array(text) })
    .meta({
      description: 'Places at which looking inside, comparing, and turning the spindle finds it',
    }),
  hazard: text.nullable(),
  weight: number.meta({ description: 'Its share where the system worked until now' }),
  row: whole.meta({
    description:
      'Index of its answers among the rows; that of the sound where it differs in no settled answer',
  }),
});

/** What may be wrong, what may be tested, at what cost, and what every test then answers. */
export const DiagnosisData = z.strictObject({
  answers: z.array(text).meta({
    description:
      'Every answer a test can give, by code; unsettled tells nothing, no short only rules out joined',
  }),
  tests: z.array(TestRow),
  rows: z.array(text).meta({
    description: 'Different rows of answers, one base-36 digit a test: its code; first the sound',
  }),
  faults: z.array(FaultRow),
  families: z
    .record(
      text,
      z.strictObject({
        title: text,
        percent: z.record(z.enum(HISTORIES), number),
        source: z.strictObject({ cite: text, standing: text }),
      }),
    )
    .meta({
      description:
        'How often each family is met, per cent of the calls, by history; those that a system has are scaled to 1 in all',
    }),
  seenShare: number.meta({
    description: 'Share of what is to be seen that looking or comparing finds',
  }),
  limits: z.strictObject({
    joined: number.meta({ description: 'Ω up to which a dead test answers joined' }),
    short: number.meta({
      description:
        'The same between a neutral and a conductor (cores and wire links) that a motor hangs on: what draws more than the fuse of the spur carries is a short',
    }),
    open: number.meta({
      description:
        'Ω from which it answers open; anything else: resistance. Between a live or a neutral and an earth anything but joined is no short',
    }),
    insulation: number.meta({
      description: 'Ω from which an insulation test answers open; resistance under it',
    }),
    loads: z.tuple([number, number]).meta({
      description:
        'Ω, least and greatest load of an instrument that loads: where either, on a line to its neutral, gives another class the answer is unsettled',
    }),
    noLoad: number.meta({
      description:
        'Ω: for any other pair the answer is settled from no load at all to the greatest',
    }),
  }),
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
export function diagnosisData({
  network,
  signatures,
  families = OUR_SHARES,
  familiesSource,
}: ComputedSystem): DiagnosisData {
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
      points: pointsOf(test),
      instrument: test.kind === 'live' ? instrumentFor(test.pair).id : null,
      act: test.kind === 'act' ? actRow(test) : null,
    })),
    rows: [...rows],
    faults: [...signatures.faults.map(({ fault }) => fault), ...signatures.silent].map((fault) => {
      const { edit, circuit, class: kind, source, ...told } = fault;
      const { inside, compare, spindle } = seenAt(network, fault);
      return {
        ...told,
        kind,
        edit: editData(network.system, edit),
        seen: { inside: [...inside], compare: [...compare], spindle: [...spindle] },
        row: rowOf.get(fault.id)!,
      };
    }),
    families: Object.fromEntries(
      Object.entries(FAMILIES).map(([id, { title, source }]) => [
        id,
        {
          title,
          percent: Object.fromEntries(
            HISTORIES.map((history, i) => [history, families[id as Family][i]!]),
          ),
          source: familiesSource ?? source,
        },
      ]),
    ) as DiagnosisData['families'],
    seenShare: SEEN_SHARE,
    limits: {
      joined: JOINED_OHMS,
      short: shortOhms(network),
      open: OPEN_OHMS,
      insulation: INSULATION_OHMS,
      loads: [...INSTRUMENT_LOADS],
      noLoad: NO_LOAD_OHMS,
    },
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

const actRow = ({ act, part, without, outcome }: ActTest): z.infer<typeof ActRow> => ({
  does: act,
  part: part ?? null,
  without: without ?? null,
  outcome: outcome ?? null,
});

function pointsOf(test: Test): string[] {
  if (test.kind === 'act') return [...test.points];
  return 'pair' in test ? [test.pair.from, test.pair.to] : [];
}

function aboutOf(test: Test): string {
  if (test.kind === 'look') return test.outcome;
  if (test.kind === 'act') return test.points.join('|');
  return test.kind === 'fuse' ? test.branch : test.pair.id;
}
