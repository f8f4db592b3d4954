import { longDate } from '../words/index.ts';
import {
  type Context,
  elsewhere,
  type Field,
  listOf,
  names,
  record,
  recordOf,
  steps,
  texts,
  value,
  whole,
} from './fields.ts';
import type { ChangeKind } from './ranks.ts';
import type { StepChange } from './steps.ts';
import { nowAndWas, same } from './values.ts';

/** Procedures whose every word keeps a hand off live parts. */
const SAFETY = new Set(['isolation', 'dead tests', 'live tests']);
export const isSafety = ({ was, now }: Context): boolean =>
  [was.kind, now.kind].some((kind) => SAFETY.has(String(kind)));
const ofProcedure = (context: Context): ChangeKind =>
  isSafety(context) ? 'safety procedure' : 'procedure';

function stepOfProcedure({ steps }: StepChange, context: Context): ChangeKind {
  if (isSafety(context)) return 'safety procedure';
  return steps.some(({ caution }) => caution !== undefined) ? 'safety step' : 'procedure';
}

function checkOfSymptom({ fields, steps }: StepChange): ChangeKind {
  if (fields.includes('caution')) return 'caution';
  if (fields.includes('by')) return 'who';
  return steps.some(({ caution }) => caution !== undefined) ? 'safety step' : 'symptom';
}

/** A standard is as grave as the graver of what it was and is. */
export function standardKind({ was, now }: Context): ChangeKind {
  const severities = [was.severity, now.severity];
  if (severities.includes('danger')) return 'danger standard';
  return severities.includes('fault') ? 'fault standard' : 'advice standard';
}

/** Limits of rules as people say them, where their own names are not it. */
const LIMITS: Readonly<Record<string, string>> = { most: 'at most', least: 'at least' };

const rule: Field = (was, now, context) => {
  const [old, is] = [was, now].map((one) => (one ?? {}) as Record<string, unknown>);
  if (old!.check !== is!.check)
    return [{ kind: standardKind(context), words: `Rule: ${nowAndWas(is!.check, old!.check)}` }];
  return Object.keys({ ...old, ...is }).flatMap((limit) =>
    value(standardKind, `Rule, ${is!.check}, ${LIMITS[limit] ?? limit}`)(
      old![limit],
      is![limit],
      context,
    ),
  );
};

/** Exceptions of a system by the standard they are to. */
const exceptions: Field = (was, now, { severityOf }) => {
  const [old, is] = [was, now].map((one) => listOf<Record<string, unknown>>(one));
  const key = ({ standard, at }: Record<string, unknown>) => JSON.stringify([standard, at ?? null]);
  const keys = new Set([...old!, ...is!].map(key));
  return [...keys].flatMap((one) => {
    const [a, b] = [old!.find((x) => key(x) === one), is!.find((x) => key(x) === one)];
    const of = (x: Record<string, unknown>) =>
      `Exception to ${x.standard}${x.at ? ` at ${listOf(x.at).join(', ')}` : ''}`;
    const said = (x: Record<string, unknown>) =>
      `“${x.why}”, allowed by ${x.by} from ${longDate(String(x.from))} until ${longDate(String(x.until))}`;
    const kind = `${severityOf?.(String((a ?? b)!.standard)) ?? 'danger'} standard` as const;
    if (!a) return [{ kind, words: `${of(b!)} added: ${said(b!)}` }];
    if (!b) return [{ kind, words: `${of(a)} ended: ${said(a)}` }];
    return same(a, b) ? [] : [{ kind, words: `${of(b)}: now ${said(b)}, was ${said(a)}` }];
  });
};

/** Who reviewed it and when: days as pages write them. */
const review: Field = (was, now) => {
  const said = (one: unknown) => {
    const { by, on, due } = (one ?? {}) as Record<string, unknown>;
    if (by === undefined) return 'none';
    return `by ${by} on ${longDate(String(on))}, due again on ${longDate(String(due))}`;
  };
  const [old, is] = [said(was), said(now)];
  return old === is ? [] : [{ kind: 'review', words: `Review: now ${is}, was ${old}` }];
};

/** What every kind of entry may say. */
const SHARED: Readonly<Record<string, Field>> = {
  summary: value('words', 'Summary'),
  aliases: names('words', 'Also called'),
  sources: texts('words', 'Source'),
  review,
  // Nobody's review, and another day is no change.
  checked: elsewhere,
  cautions: texts('caution', 'Caution'),
};

const OPENING: Readonly<Record<string, Field>> = {
  title: value('place', 'Title'),
  minutes: value('minutes', 'Minutes to open it'),
  closing: value('minutes', 'Minutes to close it'),
  by: value('who', 'Who may open it'),
  needs: value('isolation', 'What has to be off first'),
  moves: value('place', 'What opening it brings about'),
  readings: value('isolation', 'What may be read there'),
  // The reason comes and goes with what may be read.
  because: (was, now, context) =>
    same(context.was.readings, context.now.readings)
      ? value('words', 'Why not everything is read there')(was, now, context)
      : [],
  shows: names('place', 'Terminals one gets at'),
  holds: names('place', 'Fuse links one gets at'),
  spindle: value('place', 'Spindle of the valve bare'),
  care: value('caution', 'Caution'),
};

const TERMINAL: Readonly<Record<string, Field>> = {
  function: value('terminal name', 'Function'),
  voltage: value('terminal', 'Voltage'),
  carries: value('terminal', 'Carries'),
  does: names('replacement', 'Part it plays'),
  aliases: names('terminal name', 'Also called'),
};

const titled = (_: string, { title }: Readonly<Record<string, unknown>>) => `“${String(title)}”`;

/** By folder, what each field of an entry is and how grave it is when it changes. */
export const ENTRY_FIELDS: Readonly<Record<string, Readonly<Record<string, Field>>>> = {
  devices: {
    ...SHARED,
    extends: elsewhere,
    letter: value('marking', 'Class letter'),
    family: value('part', 'Group it is listed under'),
    protection: value('protection', 'Protection against shock'),
    terminals: record('Terminal', 'terminal', TERMINAL),
    nodes: elsewhere,
    // Compared as a circuit is: see device-changes.ts.
    elements: elsewhere,
    mechanism: elsewhere,
    links: deliveredLinks(),
    conditions: record('Condition', 'part', {
      title: value('words', 'Title'),
      otherwise: value('words', 'Otherwise'),
      usual: value('part', 'Usually so'),
      wants: value('part', 'What it asks for'),
      timed: value('part', 'Decided by a clock'),
      cause: value('symptom', 'Cause of a call-out'),
      presence: value('part', 'Says that it is in its place'),
    }),
    // Which outcomes there are and when they are so is told with what lies inside.
    outcomes: members('What is seen,', {
      title: value('outcome', 'Title'),
      otherwise: value('outcome', 'When not so'),
      when: elsewhere,
      by: value('outcome', 'Found by'),
      at: value('outcome', 'Looked at'),
      care: value('caution', 'Caution'),
    }),
    openings: record('Opening', 'place', OPENING, titled),
  },
  procedures: {
    ...SHARED,
    kind: value(ofProcedure, 'Kind'),
    order: value('words', 'Place in the list'),
    tools: texts(ofProcedure, 'Tool'),
    steps: steps(stepOfProcedure),
  },
  standards: {
    ...SHARED,
    severity: value(standardKind, 'Severity'),
    rule,
    applies: value(standardKind, 'Systems it is about'),
  },
  symptoms: {
    ...SHARED,
    complaint: value('words', 'Complaint'),
    group: value('words', 'Listed under'),
    common: value('words', 'Place among the commonest'),
    first: value('symptom', 'What to look at first'),
    says: texts('words', 'In the customer’s words'),
    seen: texts('symptom', 'What is seen'),
    shows: whole('symptom', 'By what signs it is known'),
    checks: steps(checkOfSymptom),
    see: names('words', 'See also'),
  },
  glossary: {
    ...SHARED,
    summary: value('words', 'Meaning'),
    abbreviations: names('words', 'Short forms'),
    see: names('words', 'See also'),
  },
  systems: {
    ...SHARED,
    arrangement: value('recognise', 'Boiler arrangement'),
    control: value('recognise', 'Control'),
    features: names('recognise', 'Features'),
    recognise: texts('recognise', 'Recognised by'),
    notes: texts('prose', 'Note'),
    exceptions,
    // Items and modes that come and go are told as a circuit.
    items: members('Item', {
      device: elsewhere,
      ratings: elsewhere,
      title: value('place', 'Name'),
      place: value('place', 'Place'),
      labels: value('terminal name', 'What its terminals serve'),
    }),
    modes: members('Mode', {
      title: value('words', 'Title'),
      summary: value('words', 'Summary'),
      after: elsewhere,
      conditions: elsewhere,
      expect: elsewhere,
      bring: value('mode', 'How it is brought about'),
      minutes: value('minutes', 'Minutes to bring it about'),
      testable: value('mode', 'Brought about on a call-out'),
      readings: value('mode', 'Readings in it'),
    }),
  },
};

/** Members that stayed, field by field; those that came or went are told elsewhere. */
function members(label: string, fields: Readonly<Record<string, Field>>): Field {
  const all = record(label, 'wiring', fields, (name, { title }) =>
    label === 'Item' ? name : `“${String(title)}”`,
  );
  return (was, now, context) => {
    const [old, is] = [recordOf(was), recordOf(now)];
    const both = (of: Record<string, unknown>) =>
      Object.fromEntries(Object.entries(of).filter(([name]) => old[name] && is[name]));
    return all(both(old), both(is), context);
  };
}

/** Links that a device is delivered with. */
function deliveredLinks(): Field {
  const ends = (value: unknown) =>
    listOf<{ between: string[]; why?: string }>(value).map(({ between }) =>
      [...between].sort().join(' to '),
    );
  return (was, now, context) =>
    names('wiring', 'Links it comes with')(ends(was), ends(now), context);
}

/** Modules: what a reader composes a system from; facts of each are joins of conductors. */
export const moduleField = (name: string): Field =>
  SHARED[name] ?? whole('wiring', `What is composed from it, ${name}`);
