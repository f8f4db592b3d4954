import { likeness, quoted, textPairs } from './values.ts';

interface Section {
  readonly heading: string;
  readonly prose: string;
}

/** Sentences quoted of a section that is otherwise. */
const MOST_QUOTED = 3;

/** Least likeness of two sections that are one under another heading. */
const SAME_SECTION = 0.6;

/** Sections of an explanation that came, went, are headed or worded otherwise: a line each. */
export function sectionChanges(before: readonly Section[], after: readonly Section[]): string[] {
  const free = new Set(after);
  const take = (section: Section | undefined) => {
    if (section) free.delete(section);
    return section;
  };
  const pairs = new Map<Section, Section>();
  const pair = (was: Section, now: Section | undefined) => {
    if (take(now)) pairs.set(was, now!);
  };
  for (const was of before)
    pair(
      was,
      [...free].find(({ heading }) => heading === was.heading),
    );
  for (const was of before)
    if (!pairs.has(was))
      pair(
        was,
        [...free].find(({ prose }) => likeness(prose, was.prose) >= SAME_SECTION),
      );
  return [
    ...before.filter((was) => !pairs.has(was)).map((was) => `${called(was)} taken out`),
    ...[...pairs].flatMap(([was, now]) => between(was, now)),
    ...after
      .filter((now) => free.has(now))
      .map((now) => `${called(now)} added: ${quoted(now.prose)}`),
  ];
}

const called = ({ heading }: Section) => (heading === '' ? 'Explanation' : `“${heading}”`);

function between(was: Section, now: Section): string[] {
  const headed = was.heading === now.heading ? '' : `, headed “${was.heading}” before`;
  if (was.prose === now.prose) return headed === '' ? [] : [`${called(now)}${headed}`];
  const pairs = textPairs(sentences(was.prose), sentences(now.prose));
  const said = pairs.slice(0, MOST_QUOTED).map(({ was: old, now: is }) => {
    if (old === undefined) return `added ${quoted(is!)}`;
    return is === undefined ? `taken out ${quoted(old)}` : `now ${quoted(is)}, was ${quoted(old)}`;
  });
  const more =
    pairs.length > MOST_QUOTED ? [`and ${pairs.length - MOST_QUOTED} more sentences`] : [];
  const words = pairs.length === 0 ? ['its sentences stand in another order'] : [...said, ...more];
  return [`${called(now)}${headed}: ${words.join('; ')}`];
}

/** Sentences, points and rows of a text. */
const sentences = (text: string): string[] =>
  text.split('\n').flatMap((line) => line.split(/(?<=[.!?]) (?=[\p{Lu}“"<*])/u));
