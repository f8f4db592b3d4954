/** The job on site, worked out in the browser: the door that the build comes through. */
export { beginningQuery } from './address.ts';
export { type JobData, type JobSource, jobData, jobFiles } from './job-data.ts';
export type { Published } from './published.ts';
