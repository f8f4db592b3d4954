import { HISTORIES, type History, type Sighting } from '../diagnosis/index.ts';
import { MOST_SPECIFICATION } from './limits.ts';

/** Where a new job begins: the complaint, its system, what is seen there already. */
export interface JobAddress {
  /** Entry id of the system; null where it is to be found out. */
  readonly system: string | null;
  /** Entry id of the symptom that the customer complains of; null where none is named. */
  readonly complaint: string | null;
  /** Specification of an arrangement composed from parts, where it is one. */
  readonly specification?: string | null;
  readonly seen: readonly Sighting[];
  /** What the customer says of the time before; null where nobody has asked. */
  readonly history: History | null;
}

const WORDS: Readonly<Record<Sighting['answer'], string>> = {
  seen: 'yes',
  'not seen': 'no',
  'comes and goes': 'on-and-off',
};
const ANSWERS = new Map(
  Object.entries(WORDS).map(([answer, word]) => [word, answer as Sighting['answer']]),
);

/** The query of an address at which a job begins: `?system=id&seen=E1.burner@heating:no`. */
export function beginningQuery({
  system,
  complaint,
  specification = null,
  seen,
  history,
}: JobAddress): string {
  const sightings = seen.map(({ outcome, mode, answer }) => `${outcome}@${mode}:${WORDS[answer]}`);
  const parts = [
    ...(system === null ? [] : [`system=${system}`]),
    ...(complaint === null ? [] : [`complaint=${complaint}`]),
    ...(specification === null ? [] : [`of=${encodeURIComponent(specification)}`]),
    ...(history === null ? [] : [`history=${history.replaceAll(' ', '-')}`]),
    ...sightings.map((one) => `seen=${encodeURIComponent(one)}`),
  ];
  return `?${parts.join('&')}`;
}

/**
 * Reads such a query.
 * @returns null where it names neither complaint nor system nor arrangement; `foreign` holds what cannot be read as seen.
 */
export function beginningIn(
  query: string,
): (Required<JobAddress> & { foreign: readonly string[] }) | null {
  const params = new URLSearchParams(query);
  const system = params.get('system');
  const complaint = params.get('complaint');
  const specification = specificationIn(query);
  if (system === null && complaint === null && specification === null) return null;
  const seen: Sighting[] = [];
  const foreign: string[] = [];
  for (const text of params.getAll('seen')) {
    const [, outcome, mode, word] = /^([^@:]{1,80})@([a-z0-9-]{1,80}):([a-z-]+)$/.exec(text) ?? [];
    const answer = ANSWERS.get(word ?? '');
    if (outcome && mode && answer) seen.push({ outcome, mode, answer });
    else foreign.push(text);
  }
  const said = params.get('history')?.replaceAll('-', ' ');
  const history = HISTORIES.find((one) => one === said) ?? null;
  return { system, complaint, specification, seen, history, foreign };
}

/** The arrangement composed from parts that a query names; what it comes to its engine says. */
export function specificationIn(query: string): string | null {
  const said = new URLSearchParams(query).get('of');
  return said !== null && /^v=[0-9]/.test(said) && said.length <= MOST_SPECIFICATION ? said : null;
}
