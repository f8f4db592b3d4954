import { SYMPTOM_GROUPS, type Symptom } from '../../../schemas/index.ts';
import type { Entry } from '../../entries/types.ts';
import { capital, symptomName } from '../../words/index.ts';

type Complaint = Entry<Symptom>;

/** Complaints that the home page shows. */
const MOST_COMMON = 6;

/**
 * The commonest complaints, in the order that their entries give (`common`): common practice, no
 * source. Two of one place stand by title.
 */
export const commonest = (symptoms: Iterable<Complaint>): Complaint[] =>
  [...symptoms]
    .filter(({ data }) => data.common !== undefined)
    .sort(
      (a, b) => a.data.common! - b.data.common! || a.data.title.localeCompare(b.data.title, 'en'),
    )
    .slice(0, MOST_COMMON);

/** Every symptom under its heading, the commonest first, then by complaint. */
export function grouped(
  symptoms: Iterable<Complaint>,
): { readonly id: string; readonly title: string; readonly symptoms: readonly Complaint[] }[] {
  const place = ({ data }: Complaint) => data.common ?? Infinity;
  const sorted = [...symptoms].sort(
    (a, b) =>
      (place(a) < place(b) ? -1 : place(a) > place(b) ? 1 : 0) ||
      symptomName(a.data).localeCompare(symptomName(b.data), 'en'),
  );
  const rows = [...SYMPTOM_GROUPS, undefined].map((group) => ({
    id: (group ?? 'others').replaceAll(' ', '-'),
    title: capital(group ?? 'others'),
    symptoms: sorted.filter(({ data }) => data.group === group),
  }));
  return rows.filter((row) => row.symptoms.length > 0);
}
