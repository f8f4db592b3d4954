import { type Job, making } from './job.ts';
import { jobFileText, MOST_BYTES, readJobFile, sizeProblem } from './job-file.ts';
import { JOB_VERSION } from './job-schema.ts';
import type { UnreadJob } from './kept.ts';
import { isPlain } from './ladder.ts';
import { base64Of, pictureFrom, smallPicture } from './pictures.ts';

/** Bytes of a file about each picture, at most. */
const FRAME_BYTES = 160;

/** A job in a file. */
export interface ExportedJob {
  readonly name: string;
  readonly text: string;
  /** Photos without a picture in the file: it would have grown too large to be read again. */
  readonly left: number;
}

type PictureOf = (id: string) => Promise<Blob | undefined>;

/** A job as a file, with as many of its pictures as fit it. */
export async function exportedJob(job: Job, picture: PictureOf): Promise<ExportedJob> {
  const textWith = (pictures: PictureInFile[]) =>
    jobFileText({ proveline: 'job', version: JOB_VERSION, job, pictures });
  const photos = job.photos.map(({ id }) => id);
  const pictures = await picturesOf(photos, textWith([]), picture);
  return {
    name: fileName(
      job.name || job.place || job.system || job.systemTitle || 'unknown-system',
      job.changed,
    ),
    text: textWith(pictures),
    left: photos.length - pictures.length,
  };
}

/**
 * A job that cannot be read here, as it lies in the store, in a file like any other: a version
 * that can read the job can import it.
 */
export async function exportedUnread(
  { raw, title, at, photos }: UnreadJob,
  picture: PictureOf,
): Promise<ExportedJob> {
  const version = isPlain(raw) ? raw.version : null;
  const textWith = (pictures: PictureInFile[]) =>
    `${plainText({ proveline: 'job', version: version ?? null, job: raw, pictures })}\n`;
  const pictures = await picturesOf(photos, textWith([]), picture);
  return {
    name: fileName(title || 'unread', at ?? 'undated'),
    text: textWith(pictures),
    left: photos.length - pictures.length,
  };
}

interface PictureInFile {
  readonly id: string;
  readonly jpeg: string;
}

/** The first of the pictures that fit a file beside its text. */
async function picturesOf(
  photos: readonly string[],
  text: string,
  picture: PictureOf,
): Promise<PictureInFile[]> {
  const pictures: PictureInFile[] = [];
  let bytes = new Blob([text]).size;
  for (const id of photos) {
    const found = await picture(id).catch(() => undefined);
    if (!found) continue;
    const jpeg = await base64Of(found);
    bytes += jpeg.length + FRAME_BYTES;
    if (bytes > MOST_BYTES) break;
    pictures.push({ id, jpeg });
  }
  return pictures;
}

function fileName(title: string, at: string): string {
  const words = title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 40);
  return `job-${words || 'record'}-${at.slice(0, 10)}.json`;
}

/** Any value that a browser keeps, as JSON; what JSON has no words for, in some of its own. */
function plainText(value: unknown): string {
  /** From the outermost inwards: what is being written, and what is written for it. */
  const above: { readonly part: object; readonly shown: object }[] = [];
  return JSON.stringify(
    value,
    function (this: unknown, _, part: unknown) {
      while (above.length > 0 && above.at(-1)?.shown !== this) above.pop();
      if (typeof part === 'bigint') return String(part);
      if (typeof part !== 'object' || part === null) return part;
      if (above.some((one) => one.part === part)) return '(itself again)';
      const shown = part instanceof Map || part instanceof Set ? [...part] : part;
      above.push({ part, shown });
      return shown;
    },
    1,
  );
}

/** A job out of a file, or why there is none. */
export type Imported =
  | { readonly problem: string }
  | { readonly job: Job; readonly pictures: readonly (readonly [id: string, picture: Blob])[] };

/**
 * Reads a job's file. A job that is here already stays as it is: the file's becomes another.
 * Pictures are drawn anew; a file that is no picture fails the whole import before anything is kept.
 * @param here names under which jobs are kept here, those that cannot be read among them
 */
export async function importedJob(file: File, here: readonly string[]): Promise<Imported> {
  const tooLarge = sizeProblem(file.size);
  if (tooLarge !== null) return { problem: tooLarge };
  const read = readJobFile(await file.text());
  if ('problem' in read) return read;
  const { job, pictures } = read.file;
  const names = new Map(job.photos.map(({ id }) => [id, making.id()]));
  const kept: (readonly [string, Blob])[] = [];
  for (const { id, jpeg } of pictures) {
    try {
      kept.push([names.get(id)!, await smallPicture(pictureFrom(jpeg))]);
    } catch {
      return { problem: 'This job is damaged: one of its pictures cannot be read.' };
    }
  }
  return {
    job: {
      ...job,
      id: here.includes(job.id) ? making.id() : job.id,
      photos: job.photos.map((photo) => ({ ...photo, id: names.get(photo.id)! })),
      remarks: job.remarks.map((remark) => ({
        ...remark,
        photo: remark.photo === null ? null : (names.get(remark.photo) ?? null),
      })),
    },
    pictures: kept,
  };
}
