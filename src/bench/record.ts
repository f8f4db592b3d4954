import type { Job } from './job.ts';
import { provingCount, provingModes, provingReadings } from './proving.ts';
import type { Sheet } from './sheet.ts';
import { answerText, capital, clauseText, lowerFirst, modeTitle, subjectText } from './words.ts';

/** A reading before and after a repair, as the record's table holds it. */
export interface RecordRow {
  readonly subject: string;
  readonly mode: string;
  readonly before: string;
  /** Empty where it was not taken again. */
  readonly after: string;
}

/** What a finished job says, ready to be shown, printed and sent on. */
export interface JobRecord {
  /** What was seen and measured before anything was mended. */
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
  const first = job.entries.filter(({ round }) => round === 0);
  const modes = provingModes(sheet, job);
  const mended = job.repairs.length > 0;
  return {
    found: first
      .filter(({ observation }) => observation.kind === 'look')
      .map(({ observation, note }) => withNote(clauseText(sheet, observation), note)),
    rows: mended
      ? provingReadings(job).map(({ before, after }) => ({
          subject: subjectText(sheet, before.observation),
          mode: modeTitle(sheet, before.observation.mode),
          before: withNote(answerText(sheet, before.observation), before.note),
          after: after ? withNote(answerText(sheet, after.observation), after.note) : '',
        }))
      : first
          .filter(({ observation }) => observation.kind !== 'look')
          .map(({ observation, note }) => ({
            subject: subjectText(sheet, observation),
            mode: modeTitle(sheet, observation.mode),
            before: withNote(answerText(sheet, observation), note),
            after: '',
          })),
    repairs: job.repairs.map(({ text }) => text),
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
          `${subject}, ${mode}: ${before}${after ? `; after the repair ${after}` : ''}`,
      ),
    ),
    ...section(
      'Wiring as found',
      job.asFound === undefined
        ? []
        : ['Otherwise than the entry shows: marked, and kept with the job'],
    ),
    ...section('Done', record.repairs),
    ...(job.repairs.length > 0
      ? section(`Proved, ${proved} of ${all} seen as they must be`, record.proved)
      : []),
    ...section('Not as it must be', record.astray),
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
