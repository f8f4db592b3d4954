import { type Entry, type Job, roundOf } from './job.ts';
import { askedAbout, provingCount, provingModes } from './proving.ts';
import type { Sheet } from './sheet.ts';
import { answerText, capital, clauseText, lowerFirst, standText, subjectText } from './words.ts';

/** One thing read, as found and since, as the record's table holds it: every time in turn. */
export interface RecordRow {
  readonly subject: string;
  /** The mode, and the instrument where it is not the two-pole tester. */
  readonly mode: string;
  /** Before the first repair; empty where it was first read after it. */
  readonly before: string;
  /** After a repair; empty where it was not read again. */
  readonly after: string;
}

/** What a finished job says, ready to be shown, printed and sent on. */
export interface JobRecord {
  /** What was seen before anything was mended, then what a repair that did not end it left. */
  readonly found: readonly string[];
  readonly rows: readonly RecordRow[];
  readonly repairs: readonly string[];
  readonly proved: readonly string[];
  /** What was not as it must be after the repair. */
  readonly astray: readonly string[];
  /** Modes of which nothing, or not everything, was looked at after the repair. */
  readonly open: readonly string[];
}

/** The record of a job. */
export function recordOf(sheet: Sheet, job: Job): JobRecord {
  const last = roundOf(job);
  const modes = provingModes(sheet, job);
  const mended = job.repairs.length > 0;
  return {
    found: job.entries
      .filter(
        ({ observation: { kind }, round }) => kind === 'look' && (round === 0 || round < last),
      )
      .map(({ observation, note, round }) =>
        withNote(
          round === 0
            ? clauseText(sheet, observation)
            : `after repair ${round}, ${clauseText(sheet, observation)}`,
          note,
        ),
      ),
    rows: rowsOf(sheet, job),
    repairs: job.repairs.map(({ text }) => text.trim() || 'Not said what'),
    proved: mended
      ? modes.flatMap(({ mode, looks }) => {
          const so = looks.filter(({ found, due }) => found === due);
          return so.length === 0
            ? []
            : [`${mode.title}: ${so.map((look) => saidOf(sheet, mode.id, look)).join('; ')}`];
        })
      : [],
    astray: mended
      ? modes.flatMap(({ mode, looks }) =>
          looks
            .filter(({ found, due }) => found !== null && found !== due)
            .map((look) => `${mode.title}: ${saidOf(sheet, mode.id, look)}`),
        )
      : [],
    open: mended
      ? modes
          .filter(({ looks }) => looks.some(({ found }) => found === null))
          .map((m) => m.mode.title)
      : [],
  };
}

/** Every reading of a job, one row for all the times the same thing was read. */
function rowsOf(sheet: Sheet, job: Job): RecordRow[] {
  const rows = new Map<string, Entry[]>();
  for (const entry of job.entries) {
    if (entry.observation.kind === 'look') continue;
    const key = JSON.stringify(askedAbout(entry.observation));
    rows.set(key, [...(rows.get(key) ?? []), entry]);
  }
  const severalRepairs = roundOf(job) > 1;
  const said = ({ observation, note, round }: Entry) => {
    const when = severalRepairs && round > 0 ? `after repair ${round} ` : '';
    return withNote(when + answerText(sheet, observation), note);
  };
  return [...rows.values()].map((entries) => {
    const { observation } = entries[0]!;
    return {
      subject: subjectText(sheet, observation),
      mode: standText(sheet, observation),
      before: inTurn(entries.filter(({ round }) => round === 0).map(said)),
      after: inTurn(entries.filter(({ round }) => round > 0).map(said)),
    };
  });
}

const inTurn = (texts: readonly string[]) => texts.join('; then ');

const withNote = (text: string, note: string) =>
  note.trim() === '' ? text : `${text} (${note.trim()})`;

type Look = ReturnType<typeof provingModes>[number]['looks'][number];

function saidOf(sheet: Sheet, mode: string, { outcome, found }: Look): string {
  const observation = { kind: 'look', mode, outcome: outcome.id, answer: found! } as const;
  return `${outcome.item} ${lowerFirst(answerText(sheet, observation))}`;
}

/** The record as plain text, for the phone's own share sheet. */
export function recordText(sheet: Sheet, job: Job): string {
  const record = recordOf(sheet, job);
  const { all, proved } = provingCount(provingModes(sheet, job));
  const lines = [
    job.name || job.systemTitle,
    ...(job.place ? [job.place] : []),
    ...(job.name ? [job.systemTitle] : []),
    `Begun ${dayText(job.started)}${job.finished ? `, finished ${dayText(job.finished)}` : ''}${job.by ? ` by ${job.by}` : ''}`,
    ...section('Found', record.found.map(capital)),
    ...section(
      'Readings',
      record.rows.map(
        ({ subject, mode, before, after }) =>
          `${subject}, ${mode}: ${[before, after && `after the repair: ${after}`].filter(Boolean).join('; ')}`,
      ),
    ),
    ...section(
      'Wiring as found',
      job.asFound === null ? [] : ['Otherwise than the entry shows: marked, and kept with the job'],
    ),
    ...section('Repaired', record.repairs),
    ...(job.repairs.length > 0
      ? section(`Proved, ${proved} of ${all} seen as they must be`, record.proved)
      : []),
    ...section('Not as it must be', record.astray),
    ...section('Not proved, or not wholly', record.open),
    ...section('Notes', job.notes.trim() ? [job.notes.trim()] : []),
  ];
  return `${lines.join('\n')}\n`;
}

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
