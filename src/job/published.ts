import type { Beginning, JobSystem } from './job.ts';

/** What the page of a published sequence tells its script: what a visit there begins with. */
export interface Published {
  readonly system: JobSystem;
  /** What the sequence starts from, in words. */
  readonly title: string;
  readonly beginning: Omit<Beginning, 'name' | 'place'>;
}
