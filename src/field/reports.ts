import { z } from 'zod';
import { Day, Id, Report } from './file.ts';
import { issueText } from './issue-text.ts';

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
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { problem: 'it is not whole JSON' };
  }
  const read = Reports.safeParse(value);
  return read.success ? { reports: read.data.reports } : { problem: issueText(read.error) };
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

/** Reports as the text of their file: one a line, by day, so that a change is one line. */
export function reportsFileText(reports: readonly KeptReport[]): string {
  const lines = reports
    .toSorted((a, b) => (`${a.on} ${a.id}` < `${b.on} ${b.id}` ? -1 : 1))
    .map(({ id, on, page, version, seen, asFound }) =>
      JSON.stringify({ id, on, page, version, seen, asFound }),
    );
  return `{"proveline":"reports","version":${REPORTS_VERSION},"reports":[\n${lines.join(',\n')}\n]}\n`;
}
