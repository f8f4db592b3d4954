import type { Sighting } from '../../diagnosis/index.ts';
import type { Question } from '../../recognise/index.ts';
import { beginningIn } from '../address.ts';
import type { Told } from '../job.ts';

/** A system to begin a job with, as the page's own list gives it. */
export interface SystemChoice {
  readonly id: string;
  /** Ids it had before. */
  readonly formerly: readonly string[];
  readonly title: string;
  readonly summary: string;
  readonly wiring: number;
  /** Mode in which a job begins. */
  readonly mode: string;
  /** The answers to the page's questions that it answers to. */
  readonly answers: readonly string[];
  /** What it is recognised by, a line each. */
  readonly recognise: readonly string[];
  /** Everything it may be looked for by, in lower case. */
  readonly words: string;
}

/** What a customer complains of. */
export interface ComplaintChoice {
  /** Entry id of the symptom. */
  readonly id: string;
  readonly words: string;
  readonly group: string;
  /** Whether it is among the commonest. */
  readonly common: boolean;
  /** What to look at first, covers on; empty where nothing is said. */
  readonly first: string;
  /** What is seen for certain where it is, by the systems that can show it. */
  readonly seen: ReadonlyMap<string, readonly Sighting[]>;
  /** Fuse links that have blown for certain, by their branches, by the systems where any has. */
  readonly blown: ReadonlyMap<string, readonly string[]>;
  /** Systems in which a published sequence starts from it. */
  readonly published: ReadonlySet<string>;
}

/** Everything that the page lists to begin a job with. */
export interface Choices {
  readonly systems: readonly SystemChoice[];
  readonly complaints: readonly ComplaintChoice[];
  /** What tells the systems apart, in the order asked. */
  readonly questions: readonly Question[];
}

/** What the page lists, in its order. */
export const choicesIn = (page: ParentNode): Choices => ({
  systems: [...page.querySelectorAll<HTMLElement>('#job-systems > [data-system]')].map((entry) => ({
    id: entry.dataset.system ?? '',
    formerly: entry.dataset.formerly?.split(' ') ?? [],
    title: textOf(entry, 'strong'),
    summary: textOf(entry, 'span'),
    wiring: Number(entry.dataset.wiring),
    mode: entry.dataset.mode ?? '',
    answers: entry.dataset.answers?.split(' ') ?? [],
    recognise: [...entry.querySelectorAll('li')].map(({ textContent }) => textContent.trim()),
    words: `${entry.textContent} ${entry.dataset.words}`.toLowerCase(),
  })),
  complaints: [...page.querySelectorAll<HTMLElement>('#job-complaints > [data-complaint]')].map(
    (entry) => ({
      id: entry.dataset.complaint ?? '',
      words: textOf(entry, 'strong'),
      group: entry.dataset.group ?? '',
      common: entry.dataset.common !== undefined,
      first: textOf(entry, 'span'),
      ...toldIn(entry),
    }),
  ),
  questions: [...page.querySelectorAll<HTMLElement>('#job-questions > li')].map((entry) => ({
    question: textOf(entry, 'strong'),
    choices: [...entry.querySelectorAll<HTMLElement>('[data-answer]')].map((choice) => ({
      id: choice.dataset.answer ?? '',
      label: choice.textContent.trim(),
    })),
  })),
});

/** What is told of each system that can show a complaint. */
function toldIn(entry: HTMLElement): Pick<ComplaintChoice, 'seen' | 'blown' | 'published'> {
  const told = [...entry.querySelectorAll('li')].flatMap(({ dataset }) => {
    const begun = beginningIn(dataset.begins ?? '');
    const blown = dataset.blown?.split(' ') ?? [];
    const follows = dataset.follows !== undefined;
    return begun?.system ? [{ system: begun.system, seen: begun.seen, blown, follows }] : [];
  });
  return {
    seen: new Map(told.map(({ system, seen }) => [system, seen])),
    blown: new Map(told.map(({ system, blown }) => [system, blown])),
    published: new Set(told.flatMap(({ system, follows }) => (follows ? [system] : []))),
  };
}

/**
 * What a complaint says of a system: what is seen and blown for certain, and the published
 * sequence that starts from it, which a visit there follows.
 */
export const toldOf = (complaint: ComplaintChoice | null, system: string): Told => ({
  seen: complaint?.seen.get(system) ?? [],
  blown: complaint?.blown.get(system) ?? [],
  sequence: complaint?.published.has(system) ? complaint.id : null,
});

const textOf = (entry: ParentNode, selector: string) =>
  entry.querySelector(selector)?.textContent.trim() ?? '';

/** The id that a system has now; the one given where the list has none that was ever called so. */
export const idNow = (systems: readonly SystemChoice[], id: string): string =>
  systems.find((system) => system.id === id || system.formerly.includes(id))?.id ?? id;

/** Systems that hold every word of a query. */
export function systemsFor(systems: readonly SystemChoice[], query: string): SystemChoice[] {
  const words = query.toLowerCase().split(/\s+/).filter(Boolean);
  return systems.filter((system) => words.every((word) => system.words.includes(word)));
}
