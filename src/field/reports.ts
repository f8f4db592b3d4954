import { z } from 'zod';
import { Day, Id, Report } from './file.ts';
import { recordsIn, recordsText } from './kept-file.ts';

/** Where a firm's folder keeps what was reported as wrong. */
export const REPORTS_FILE = 'field/reports.json';
/** Most reports that are kept. */
export const MOST_REPORTS = 5000;
const REPORTS_VERSION = 1;

/** A report as it is kept: the page, its version and what was seen; nobody's name or house. */
export const KeptReport = z.strictObject({
  id: Id,
  on: Day,
  page: Report.shape.page,
  version: z
    .string()
    .regex(/^[0-9a-f]{8}$/, 'a version is eight hexadecimal digits')
    .nullable(),
  seen: Report.shape.seen,
  asFound: Report.shape.asFound,
});
export type KeptReport = z.infer<typeof KeptReport>;

const Reports = z.strictObject({
  proveline: z.literal('reports', 'this is no file of reports'),
  version: z.literal(REPORTS_VERSION, `this version reads version ${REPORTS_VERSION}`),
  reports: z.array(KeptReport).max(MOST_REPORTS, `there are at most ${MOST_REPORTS} reports`),
});

/** The reports of a file of them, or what is wrong with it. */
export function readReports(
  text: string,
): { readonly reports: readonly KeptReport[] } | { readonly problem: string } {
  const read = recordsIn(text, Reports, 'reports', 'report');
  return 'problem' in read ? read : { reports: read.records };
}

/** A report as it is kept. */
export const keptOf = ({ id, on, page, build, seen, asFound }: Report): KeptReport => ({
  id,
  on,
  page,
  version: build?.version ?? null,
  seen,
  asFound,
});

/** Reports as the text of their file. */
export const reportsFileText = (reports: readonly KeptReport[]): string =>
  recordsText({ proveline: 'reports', version: REPORTS_VERSION }, 'reports', reports);
