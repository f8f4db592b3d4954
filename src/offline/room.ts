/** Bytes of the browser's allowance that pages never take: jobs and their pictures come first. */
export const JOB_RESERVE = 10_000_000;

/** The device has less room than a version needs beside what jobs are left. */
export class NoRoom extends Error {
  constructor(needed: number, free: number) {
    super(`${needed} bytes are needed and ${Math.max(0, free)} are free beside the jobs' reserve`);
    this.name = 'NoRoom';
  }
}

/** Whether something failed for want of room on the device. */
export const isFull = (failure: unknown): boolean =>
  failure instanceof NoRoom ||
  (failure instanceof DOMException && failure.name === 'QuotaExceededError');

/** Bytes that pages may still take; undefined where the browser does not say. */
export async function freeBytes(storage?: StorageManager): Promise<number | undefined> {
  if (!storage?.estimate) return undefined;
  const { quota, usage } = await storage.estimate();
  return quota === undefined ? undefined : quota - (usage ?? 0) - JOB_RESERVE;
}
