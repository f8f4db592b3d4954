import { FAMILIES } from '../diagnosis/index.ts';
import type { Visit } from '../field/file.ts';
import { today } from '../field/hand-out.ts';
import { FIELD_VERSION, MOST_FIELD_BYTES, MOST_MINUTES } from '../field/limits.ts';
import { isOfCause } from './done.ts';
import type { Findings } from './findings.ts';
import type { Entry, Job } from './job.ts';
import { base64Of } from './pictures.ts';

/** What may go with a visit where it is ticked: all else of the house stays on the phone. */
export const TICKS = ['name', 'place', 'notes', 'photographs'] as const;
export type Ticks = Readonly<Record<(typeof TICKS)[number], boolean>>;
export const NOTHING_TICKED: Ticks = {
  name: false,
  place: false,
  notes: false,
  photographs: false,
};

export type Cause = Visit['cause'];

/** What the engineer says of a visit before it is handed over. */
export interface HandedOver {
  readonly cause: Cause;
  readonly minutes: number | null;
  readonly ticks: Ticks;
}

/** Room that a file keeps for all but its photographs, bytes. */
const REST_BYTES = 500_000;
const MOST_ACT = 200;

/** A cause in words. */
export const causeTitle = (cause: Cause): string =>
  cause === 'sound'
    ? 'Nothing was wrong'
    : cause === 'other'
      ? 'Something else, not in this list'
      : FAMILIES[cause].title;

/** What the last repair says was wrong; null where it was not entered from the list of causes. */
export function causeOf({ repairs }: Job, findings: Findings | null): Cause | null {
  const text = repairs.at(-1)?.text;
  if (text === undefined) return null;
  const causes = (findings?.repairs ?? []).flatMap((one) => one.causes);
  return causes.find(({ title }) => isOfCause(text, title))?.family ?? null;
}

/** Minutes from begin to finish; null where it was open for longer than a visit takes. */
export function minutesOf({ started, finished }: Job): number | null {
  if (finished === null) return null;
  const minutes = Math.round((Date.parse(finished) - Date.parse(started)) / 60_000);
  return minutes >= 1 && minutes <= MOST_MINUTES ? minutes : null;
}

/** A finished visit as it is handed over: nothing of the customer's but what is ticked. */
export async function visitOf(
  job: Job,
  { cause, minutes, ticks }: HandedOver,
  build: Visit['build'],
  picture: (id: string) => Promise<Blob | undefined>,
): Promise<Visit> {
  const found = job.entries.filter(({ told }) => !told);
  return {
    proveline: 'field',
    version: FIELD_VERSION,
    id: job.id.padStart(8, '0'),
    on: today(new Date(job.finished ?? job.changed)),
    kind: 'visit',
    build,
    system: job.system!,
    wiring: job.wiring ?? 1,
    complaint: job.complaint?.id ?? null,
    history: job.history,
    cause,
    acts: found.map((entry) => actText(entry).slice(0, MOST_ACT)),
    readings: found.filter(({ observation: { kind } }) => kind === 'live' || kind === 'dead')
      .length,
    minutes,
    asFound: job.asFound,
    ticked: {
      ...(ticks.name && job.name ? { name: job.name.slice(0, 160) } : {}),
      ...(ticks.place && job.place ? { place: job.place.slice(0, 160) } : {}),
      ...(ticks.notes && job.notes.trim() ? { notes: job.notes.trim().slice(0, 2000) } : {}),
      ...(ticks.photographs ? await photographsOf(job, picture) : {}),
    },
  };
}

/** An act by its codes alone: no word of it is anybody's own. */
function actText({ observation: o }: Entry): string {
  switch (o.kind) {
    case 'look':
      return `look ${o.mode} ${o.outcome}`;
    case 'live':
      return `live ${o.mode} ${o.from} ${o.to} ${o.instrument}`;
    case 'dead':
      return `dead ${o.mode} ${o.from} ${o.to}`;
    case 'fuse':
      return `fuse ${o.mode} ${o.branch}`;
    case 'act':
      return `act ${o.mode} ${o.id}`;
  }
}

async function photographsOf(
  job: Job,
  picture: (id: string) => Promise<Blob | undefined>,
): Promise<{ photographs?: string[] }> {
  const photographs: string[] = [];
  let bytes = REST_BYTES;
  for (const { id } of job.photos) {
    const found = await picture(id).catch(() => undefined);
    if (!found) continue;
    const jpeg = await base64Of(found);
    bytes += jpeg.length;
    if (bytes > MOST_FIELD_BYTES) break;
    photographs.push(jpeg);
  }
  return photographs.length > 0 ? { photographs } : {};
}

/** A visit in words, for a messenger. */
export const visitWords = ({ system, history, cause, acts, minutes }: Visit): string[] => [
  `A visit to ${system}: ${causeTitle(cause)}`,
  `${history}, ${acts.length} acts${minutes === null ? '' : `, ${minutes} min`}`,
];
