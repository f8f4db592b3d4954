import { likeness, quoted, textPairs } from './values.ts';

interface Section {
  readonly heading: string;
  readonly prose: string;
}

/** Sentences quoted of a section that is otherwise. */
const MOST_QUOTED = 3;

/** Least likeness of two sections that are one under another heading. */
const SAME_SECTION = 0.6;

const TERMINAL = '[A-Z]{1,2}\\d{1,2}\\.[A-Za-z0-9][A-Za-z0-9 -]*';
/** A figure of an explanation as open data has it: a terminal, what it is read to, a mode, in any order. */
const FIGURE = new RegExp(
  `\\[((?:${TERMINAL}|[a-z0-9-]+)(?:, (?:${TERMINAL}|[a-z0-9-]+)){1,2})\\]`,
  'g',
);

/**
 * An explanation with each figure that its page computes in words: `[X1.2, heating]` is what X1.2
 * reads in that mode.
 * @param titleOf title of a mode
 */
export const withFigures = (prose: string, titleOf: (mode: string) => string): string =>
  prose.replaceAll(FIGURE, (all, list: string) => {
    const parts = list.split(', ');
    const [at, to, ...more] = parts.filter((part) => part.includes('.'));
    const [mode, ...others] = parts.filter((part) => !part.includes('.'));
    if (at === undefined || mode === undefined || more.length + others.length > 0) return all;
    return `(what ${at} reads${to === undefined ? '' : ` to ${to}`} in ‘${titleOf(mode)}’)`;
  });

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
