import { HISTORY_WORDS } from '../diagnosis/index.ts';
import type { Observation } from '../diagnosis/inference/index.ts';
import { lowerFirst } from '../words/index.ts';
import { askedKey } from './asked.ts';
import { customerText, EMERGENCY_LINES, type Proof } from './customer.ts';
import { type Entry, type Job, type Remark, roundOf } from './job.ts';
import { isSaidByAnother } from './one-look.ts';
import { type DueOf, isProved, type ProvingMode, provingModes } from './proving.ts';
import { CODE_WORDS } from './remark-words.ts';
import { itemIn, modeIn, outcomeIn, pointIn, refOf, type Sheet } from './sheet.ts';
import {
  answerText,
  modeTitle,
  nameOf,
  outcomeText,
  recordedText,
  standText,
  subjectText,
} from './words.ts';

/** Something said in words, with the code of what it is of; empty where there is none. */
export interface Said {
  readonly words: string;
  readonly code: string;
}

/** What was seen together in one mode. */
export interface SaidLooks {
  /** `Heating only`, and after which repair where it was not before the first. */
  readonly mode: string;
  /** What was astray first. */
  readonly looks: readonly Said[];
}

/** One thing read, as found and since, as the record's table holds it: every time in turn. */
export interface RecordRow {
  readonly subject: Said;
  /** The mode, and the instrument where it is not the two-pole tester. */
  readonly mode: string;
  /** Before the first repair; empty where it was first read after it. */
  readonly before: string;
  /** After a repair; empty where it was not read again. */
  readonly after: string;
}

/** What a finished job says, ready to be shown, printed and sent on. */
export interface JobRecord {
  /** What the customer reported, in a sentence or two. */
  readonly reported: string;
  /** Of an arrangement from parts: what is wrong with it, then what is proven of it. */
  readonly standing: readonly string[];
  /** What was seen before anything was mended, then what a repair that did not end it left. */
  readonly found: readonly SaidLooks[];
  readonly rows: readonly RecordRow[];
  readonly repairs: readonly string[];
  readonly proved: readonly string[];
  /** What was not as it must be after the repair. */
  readonly astray: readonly SaidLooks[];
  /** Modes that would prove the repair, or a safety device, and were not wholly looked at. */
  readonly unproved: readonly string[];
  /** Other modes of which nothing, or not everything, was looked at after the repair. */
  readonly untried: readonly string[];
  readonly remarks: readonly (Remark & { readonly meaning: string })[];
  readonly remains: string;
  readonly customer: string;
}

/** Said of a repair after which nothing was seen as it must be. */
export const NOTHING_PROVED = 'Nothing was proved after the repair.';

/** The record of a job. @param dueOf what a sound system answers to a reading, where known. */
export function recordOf(sheet: Sheet, job: Job, dueOf?: DueOf): JobRecord {
  const modes = job.repairs.length > 0 ? provingModes(sheet, job, dueOf) : [];
  const open = modes.filter(({ looks }) => looks.some(({ found }) => found === null));
  return {
    reported: reportedText(job),
    standing: standingLines(sheet),
    found: foundLooks(sheet, job),
    rows: rowsOf(sheet, job),
    repairs: job.repairs.map(({ text }) => text.trim() || 'Not said what'),
    proved: modes.flatMap((mode) => provedText(sheet, mode)),
    astray: modes.flatMap(({ mode, looks }) => {
      const not = looks.flatMap(({ outcome, due, found }) =>
        found === null || found === due ? [] : [saidLook(sheet, outcome.id, found)],
      );
      return not.length === 0 ? [] : [{ mode: mode.title, looks: not }];
    }),
    unproved: open
      .filter(({ purpose }) => purpose !== 'rest')
      .map(({ mode, purpose }) =>
        purpose === 'repair'
          ? `${mode.title} (needed to prove the repair)`
          : `${mode.title} (a safety device)`,
      ),
    untried: open.filter(({ purpose }) => purpose === 'rest').map(({ mode }) => mode.title),
    remarks: job.remarks.map((remark) => ({ ...remark, meaning: CODE_WORDS[remark.code] })),
    remains: job.remains.trim(),
    customer: job.customer.trim() || customerText(sheet, job, proofOf(modes)),
  };
}

/** How the repair stands, by the modes that prove it. */
export function proofOf(modes: readonly ProvingMode[]): Proof {
  const looks = modes.flatMap((mode) => mode.looks);
  if (looks.some(({ found, due }) => found !== null && found !== due)) return 'astray';
  const needed = modes.filter(({ purpose }) => purpose === 'repair');
  return needed.length > 0 && needed.every(isProved) ? 'proved' : 'open';
}

/** What an arrangement from parts is, in lines; none of an entry. */
const standingLines = ({ composed }: Sheet): string[] =>
  composed === null
    ? []
    : [...composed.wrong.map(({ title, said }) => `${title}. ${said}`), composed.standing];

function reportedText({ complaint, history }: Job): string {
  const said = complaint ? `Customer reported: ${lowerFirst(complaint.words)}. ` : '';
  return `${said}${HISTORY_WORDS[history]}.`;
}

/**
 * What was seen in each mode of each round, the latest look at each thing, astray first. What was
 * only told stands with the complaint.
 */
function foundLooks(sheet: Sheet, job: Job): SaidLooks[] {
  const last = roundOf(job);
  const groups = new Map<string, Map<string, Entry>>();
  for (const entry of job.entries) {
    const { observation: o, round } = entry;
    if (o.kind !== 'look' || entry.told || (round > 0 && round >= last)) continue;
    if (isSaidByAnother(sheet, job.entries, entry)) continue;
    const mode = modeTitle(sheet, o.mode);
    const title = round === 0 ? mode : `After repair ${round}, ${lowerFirst(mode)}`;
    const group = groups.get(title) ?? new Map<string, Entry>();
    groups.set(title, group.set(o.outcome, entry));
  }
  return [...groups].map(([mode, group]) => {
    const looks = [...group.values()].map(({ observation, note }) => ({
      said: lookOf(sheet, observation, note),
      astray: isAstray(sheet, observation),
    }));
    const first = looks.filter(({ astray }) => astray);
    const then = looks.filter(({ astray }) => !astray);
    return { mode, looks: [...first, ...then].map(({ said }) => said) };
  });
}

function isAstray(sheet: Sheet, observation: Observation): boolean {
  if (observation.kind !== 'look') return false;
  const due = modeIn(sheet, observation.mode)?.due[observation.outcome];
  return due !== undefined && due !== observation.answer;
}

function lookOf(sheet: Sheet, observation: Observation, note: string): Said {
  if (observation.kind !== 'look') return { words: answerText(sheet, observation), code: '' };
  const { words, code } = saidLook(sheet, observation.outcome, observation.answer);
  return { words: withNote(words, note), code };
}

/** An outcome in words, with its item's title where another item says it in the same words. */
function saidLook(sheet: Sheet, id: string, answer: 'seen' | 'not seen' | 'comes and goes'): Said {
  const ref = refOf(id);
  const words = lowerFirst(outcomeText(sheet, id, answer));
  const title = outcomeIn(sheet, id)?.title;
  const alike = sheet.outcomes.filter((one) => one.title === title).length > 1;
  return { words: alike ? `${lowerFirst(titleOf(sheet, ref))}: ${words}` : words, code: ref };
}

function provedText(sheet: Sheet, { mode, looks }: ProvingMode): string[] {
  const so = looks.filter(({ found, due }) => found === due);
  if (so.length === 0) return [];
  const safety = mode.safety.length > 0 && so.length === looks.length ? `. ${mode.safety[0]}` : '';
  if (so.length === looks.length)
    return [`${mode.title}: all as it should be, ${so.length} things looked at${safety}`];
  const said = so.map(({ outcome, due }) => saidLook(sheet, outcome.id, due).words);
  return [`${mode.title}: ${so.length} of ${looks.length} as they should be: ${said.join('; ')}`];
}

/** Every reading of a job that was taken, one row for all the times the same thing was read. */
function rowsOf(sheet: Sheet, job: Job): RecordRow[] {
  const rows = new Map<string, Entry[]>();
  for (const entry of job.entries) {
    if (entry.observation.kind === 'look' || entry.told) continue;
    const key = askedKey(entry.observation);
    rows.set(key, [...(rows.get(key) ?? []), entry]);
  }
  const severalRepairs = roundOf(job) > 1;
  const said = ({ observation, note, round }: Entry) => {
    const when = severalRepairs && round > 0 ? `after repair ${round} ` : '';
    return withNote(when + recordedText(sheet, observation), note);
  };
  return [...rows.values()].map((entries) => {
    const { observation } = entries[0]!;
    return {
      subject: readSubject(sheet, observation),
      mode: standText(sheet, observation),
      before: inTurn(entries.filter(({ round }) => round === 0).map(said)),
      after: inTurn(entries.filter(({ round }) => round > 0).map(said)),
    };
  });
}

/** What was read, in the words of its terminals; its code behind them. */
function readSubject(sheet: Sheet, observation: Observation): Said {
  const code = subjectText(sheet, observation);
  if (observation.kind !== 'live' && observation.kind !== 'dead') return { words: code, code: '' };
  const [from, to] = [observation.from, observation.to].map((id) => ({
    item: titleOf(sheet, refOf(id)),
    does: inShort(pointIn(sheet, id)?.function ?? nameOf(id)),
  }));
  const far = from!.item === to!.item ? to!.does : `${lowerFirst(to!.item)}, ${to!.does}`;
  return { words: `${from!.item}, ${from!.does} to ${far}`, code };
}

/** Up to its first comma a title or function says what the thing is. */
const inShort = (text: string) => text.split(',')[0]!;
const titleOf = (sheet: Sheet, ref: string) => inShort(itemIn(sheet, ref)?.title ?? ref);

const inTurn = (texts: readonly string[]) => texts.join('; then ');

const withNote = (text: string, note: string) =>
  note.trim() === '' ? text : `${text} (${note.trim()})`;

/** Words with the code in brackets, as plain text has it. */
const plain = ({ words, code }: Said) => (code === '' ? words : `${words} (${code})`);
const plainLooks = ({ mode, looks }: SaidLooks) => `${mode}: ${looks.map(plain).join('; ')}`;

/** What is said of a job without a repair. */
export const nothingRepaired = ({ finished }: Job): string =>
  finished === null ? 'Nothing repaired yet: the job is open.' : 'Nothing was repaired.';

/** The record as plain text, for the phone's own share sheet. */
export function recordText(sheet: Sheet, job: Job, dueOf?: DueOf): string {
  const record = recordOf(sheet, job, dueOf);
  const mended = job.repairs.length > 0;
  const lines = [
    job.name || job.systemTitle,
    ...(job.place ? [job.place] : []),
    ...(job.name ? [job.systemTitle] : []),
    `Begun ${dayText(job.started)}${job.finished ? `, finished ${dayText(job.finished)}` : ''}${job.by ? ` by ${job.by}` : ''}`,
    ...record.standing,
    '',
    record.reported,
    ...section('Found', record.found.map(plainLooks)),
    ...section(
      'Readings',
      record.rows.map(
        ({ subject, mode, before, after }) =>
          `${plain(subject)}, ${lowerFirst(mode)}: ${[before, after && `after the repair: ${after}`].filter(Boolean).join('; ')}`,
      ),
    ),
    ...section(
      'Wiring as found',
      job.asFound === null ? [] : ['Not as drawn: what differs is marked, and kept with the job'],
    ),
    ...section('Repaired', mended ? record.repairs : [nothingRepaired(job)]),
    ...(mended
      ? section('Proved', record.proved.length > 0 ? record.proved : [NOTHING_PROVED])
      : []),
    ...section('Not as it must be', record.astray.map(plainLooks)),
    ...section('Not proved, or not wholly', record.unproved),
    ...(record.untried.length > 0 ? section('Not tried', [record.untried.join(', ')]) : []),
    ...section('Noticed beside the fault', record.remarks.map(remarkText)),
    ...section('What remains', record.remains ? [record.remains] : []),
    ...section('Notes', job.notes.trim() ? [job.notes.trim()] : []),
    ...section('For the customer', [record.customer]),
    ...section('In an emergency', EMERGENCY_LINES),
  ];
  return `${lines.join('\n')}\n`;
}

/** Something noticed, as one line: `Boiler: no cord grip. C2, potentially dangerous`. */
export const remarkText = ({ place, text, code }: Remark): string =>
  `${place.trim() ? `${place.trim()}: ${lowerFirst(text)}` : text}. ${code}, ${lowerFirst(CODE_WORDS[code])}`;

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ['', title, ...lines.map((line) => `- ${line}`)];

/** A moment as the record says it: `25 Nov 2026, 14:05`, in the reader's own time. */
export function dayText(iso: string): string {
  return new Date(iso).toLocaleString('en-GB', {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
  });
}
