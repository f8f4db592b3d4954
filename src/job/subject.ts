import type { Job } from './job.ts';

/** What a job is about: the entry of a system, or an arrangement composed from parts. */
export type Subject =
  | { readonly kind: 'entry'; readonly id: string }
  | { readonly kind: 'composed'; readonly specification: string };

/** What an open job is about; null while nobody knows. */
export function subjectOf({ system, composed }: Pick<Job, 'system' | 'composed'>): Subject | null {
  if (composed) return { kind: 'composed', specification: composed.specification };
  return system === null ? null : { kind: 'entry', id: system };
}

/** The id under which an arrangement from parts is known: its circuit’s own mark. */
export const composedId = (parts: string): string => `composed-${parts}`;

/** The id of the system in a job’s sheet, as far as the job knows it. */
export const systemIdOf = ({
  system,
  composed,
}: Pick<Job, 'system' | 'composed'>): string | null =>
  composed ? (composed.parts === null ? null : composedId(composed.parts)) : system;

/** Parts of a subject that have an address of their own. */
export type SubjectPart = '' | 'wiring' | 'as-found';

/**
 * Root-relative address of a subject’s page.
 * @param fragment what follows its `#`; an arrangement’s own pages have theirs in use but this one
 */
export function subjectPath(subject: Subject, part: SubjectPart = '', fragment = ''): string {
  const behind = fragment === '' ? '' : `#${fragment}`;
  if (subject.kind === 'entry')
    return `/systems/${subject.id}/${part === '' ? '' : `${part}/`}${behind}`;
  const { specification } = subject;
  if (part === 'as-found')
    return `/compose/as-found/?of=${encodeURIComponent(specification)}${behind}`;
  return `/compose/${part === '' ? '' : `?part=${part}`}#${specification}`;
}
