import { HISTORIES, type History, type Sighting } from '../diagnosis/index.ts';

/** Where a new job begins: its system, what is seen there already, what the customer says. */
export interface JobAddress {
  /** Entry id of the system. */
  readonly system: string;
  readonly seen: readonly Sighting[];
  /** What the customer says of the time before. */
  readonly history: History;
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
export function beginningQuery({ system, seen, history }: JobAddress): string {
  const sightings = seen.map(({ outcome, mode, answer }) => `${outcome}@${mode}:${WORDS[answer]}`);
  const before = history === HISTORIES[0] ? '' : `&history=${history.replaceAll(' ', '-')}`;
  return `?system=${system}${before}${sightings.map((one) => `&seen=${encodeURIComponent(one)}`).join('')}`;
}

/**
 * Reads such a query.
 * @returns null where it names no system; `foreign` holds what cannot be read as seen.
 */
export function beginningIn(query: string): (JobAddress & { foreign: readonly string[] }) | null {
  const params = new URLSearchParams(query);
  const system = params.get('system');
  if (system === null) return null;
  const seen: Sighting[] = [];
  const foreign: string[] = [];
  for (const text of params.getAll('seen')) {
    const [, outcome, mode, word] = /^([^@:]{1,80})@([a-z0-9-]{1,80}):([a-z-]+)$/.exec(text) ?? [];
    const answer = ANSWERS.get(word ?? '');
    if (outcome && mode && answer) seen.push({ outcome, mode, answer });
    else foreign.push(text);
  }
  const said = params.get('history')?.replaceAll('-', ' ');
  const history = HISTORIES.find((one) => one === said) ?? HISTORIES[0];
  return { system, seen, history, foreign };
}
