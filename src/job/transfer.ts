import { type Job, making } from './job.ts';
import { jobFileText, MOST_BYTES, readJobFile, sizeProblem } from './job-file.ts';
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

/** A job as a file, with as many of its pictures as fit it. */
export async function exportedJob(
  job: Job,
  picture: (id: string) => Promise<Blob | undefined>,
): Promise<ExportedJob> {
  const textWith = (pictures: { id: string; jpeg: string }[]) =>
    jobFileText({ proveline: 'job', version: 1, job, pictures });
  const pictures = [];
  let bytes = new Blob([textWith([])]).size;
  for (const { id } of job.photos) {
    const found = await picture(id);
    if (!found) continue;
    const jpeg = await base64Of(found);
    bytes += jpeg.length + FRAME_BYTES;
    if (bytes > MOST_BYTES) break;
    pictures.push({ id, jpeg });
  }
  const words = (job.name || job.place || job.system)
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 40);
  return {
    name: `job-${words || 'record'}-${job.changed.slice(0, 10)}.json`,
    text: textWith(pictures),
    left: job.photos.length - pictures.length,
  };
}

/** A job out of a file, or why there is none. */
export type Imported =
  | { readonly problem: string }
  | { readonly job: Job; readonly pictures: readonly (readonly [id: string, picture: Blob])[] };

/**
 * Reads a job's file. A job that is here already stays as it is: the file's becomes another.
 * Pictures are drawn anew; one that is none fails the whole file, before anything is kept.
 */
export async function importedJob(file: File, here: readonly Job[]): Promise<Imported> {
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
  const known = here.some(({ id }) => id === job.id);
  return {
    job: {
      ...job,
      id: known ? making.id() : job.id,
      photos: job.photos.map((photo) => ({ ...photo, id: names.get(photo.id)! })),
    },
    pictures: kept,
  };
}
