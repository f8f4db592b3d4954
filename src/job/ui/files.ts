import type { Desk } from '../desk.ts';
import type { Job } from '../job.ts';
import type { UnreadJob } from '../store.ts';
import type { ExportedJob } from '../transfer.ts';

/** Hands a job over as a file. What reads and writes files is loaded when it is wanted. */
export async function exportJob(desk: Desk, job: Job): Promise<void> {
  const { exportedJob } = await import('../transfer.ts');
  download(desk, await exportedJob(job, desk.picture));
}

/** Hands a job that cannot be read here over as a file. */
export async function keepFile(desk: Desk, unread: UnreadJob): Promise<void> {
  const { exportedUnread } = await import('../transfer.ts');
  download(desk, await exportedUnread(unread, desk.picture));
}

function download(desk: Desk, { name, text, left }: ExportedJob): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  desk.say(
    `Exported as ${name}.${left > 0 ? ` ${left} of its photos stayed here: a file holds 2 MB.` : ''}`,
  );
}

/** Takes in a job that came as a file. @returns what became of it, in words. */
export async function importJob(desk: Desk, file: File): Promise<string> {
  const { importedJob } = await import('../transfer.ts');
  const { jobs, unread } = desk.state;
  const taken = await importedJob(
    file,
    [...jobs, ...unread].map(({ id }) => id),
  );
  if ('problem' in taken) return taken.problem;
  try {
    await desk.keep(taken.job, taken.pictures);
  } catch (failure) {
    return `The job could not be kept: ${failure instanceof Error ? failure.message : String(failure)}`;
  }
  return `Imported: ${taken.job.name || taken.job.systemTitle}.`;
}
