/** Whether a published address serves the site as it needs to be served: the door to this room. */
export { checkPublished } from './check.ts';
export { findingText } from './findings.ts';
