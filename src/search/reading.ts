import { type Meaning, meaningOf, stemOf, wordsKnown } from './meaning.ts';
import type { Kind, Name, Vocabulary } from './names.ts';
import { joined, spaced } from './text.ts';

/** Weight of what no entry speaks of; what one entry in ten speaks of has twice that. */
const UNKNOWN = 1.2;
/** A word that no page holds is most likely what is asked for: an oven that does not work. */
const UNKNOWN_WORD = 4;
/** A thing of another trade is what is asked for, whatever is said beside it. */
const OTHER_TRADE = 10;
/** How the feature of such a thing begins. */
export const ELSEWHERE = 'elsewhere ';

/** A label of a name, as it is read. */
interface Label {
  readonly text: string;
  readonly joined: string;
  readonly spaced: string;
  readonly meaning: Meaning;
  /** Weight of all it says. */
  readonly weight: number;
}

/** Names as they are read, once for a list of them. */
export interface Read {
  /** Whether a word as it stands, by its stem, is in no name and in no page. */
  readonly isUnknown: (feature: string) => boolean;
  readonly weightOf: (feature: string) => number;
  readonly names: readonly {
    readonly name: Name;
    readonly labels: readonly Label[];
    readonly whole: Meaning;
  }[];
  readonly words: readonly string[];
}

/** What asks for a kind of entry: how to do it, how it is wired. */
const ASKED_AS: Readonly<Partial<Record<Kind, string>>> = { procedure: 'how to', system: 'system' };

const readings = new WeakMap<readonly Name[], Read>();

/** What is searched by name: the names, and the words of the pages where they are at hand. */
export type Searched = Pick<Vocabulary, 'names'> & Partial<Pick<Vocabulary, 'words'>>;

/** Reads names before they are asked for, so that the first key is answered at once. */
export function readNames({ names, words = [] }: Searched): Read {
  const known = readings.get(names);
  if (known) return known;
  const meanings = new Map<string, Meaning>();
  const read = names.map((name) => {
    const of = name.of === undefined ? undefined : meaningOnce(name.of, meanings);
    const labels = [name.name, ...name.aliases].map((text) => ({
      text,
      joined: joined(text),
      spaced: spaced(text),
      // A terminal is asked for with its device: orange of a two-port valve.
      meaning: of ? union([meaningOnce(text, meanings), of]) : meaningOnce(text, meanings),
    }));
    const around = [name.about, ASKED_AS[name.kind] ?? ''].map((text) =>
      meaningOnce(text, meanings),
    );
    return { name, labels, whole: union([...labels.map(({ meaning }) => meaning), ...around]) };
  });
  const counts = new Map<string, number>();
  const entries = read.filter(({ name }) => name.kind !== 'terminal');
  for (const { whole } of entries)
    for (const feature of whole.keys()) counts.set(feature, (counts.get(feature) ?? 0) + 1);
  const inPages = new Set(words.map(stemOf));
  const isUnknown = (feature: string) =>
    !counts.has(feature) &&
    (feature.startsWith(ELSEWHERE) || (isPlain(feature) && !inPages.has(feature)));
  // What no entry speaks of tells none from another: it only makes an answer less sure.
  const weightOf = (feature: string) => {
    const count = counts.get(feature);
    if (count === undefined && feature.startsWith(ELSEWHERE)) return OTHER_TRADE;
    if (count === undefined) return isUnknown(feature) ? UNKNOWN_WORD : UNKNOWN;
    return Math.log(1 + (entries.length + 1) / (1 + count));
  };
  const reading: Read = {
    isUnknown,
    weightOf,
    words: wordsKnown(read.flatMap(({ labels }) => labels.map((label) => label.spaced))),
    names: read.map(({ name, labels, whole }) => ({
      name,
      whole,
      labels: labels.map((label) => ({ ...label, weight: weightIn(label.meaning, weightOf) })),
    })),
  };
  readings.set(names, reading);
  return reading;
}

/** The meaning of a text that stands on many terminals, read once. */
function meaningOnce(text: string, known: Map<string, Meaning>): Meaning {
  const meaning = known.get(text) ?? meaningOf(text);
  known.set(text, meaning);
  return meaning;
}

/** What of a phrase names a thing: its parts, colours, and words as they stand. */
export const thingsIn = (meaning: Meaning): Meaning =>
  new Map(
    [...meaning].filter(([feature]) => /^(part|word colour) /.test(feature) || isPlain(feature)),
  );

/** Whether a feature is a word as it stands, not a part, a state, a number or a pair of them. */
const isPlain = (feature: string) => !feature.includes(' ');

/** All that any of them says. */
function union(meanings: readonly Meaning[]): Meaning {
  const all = new Map<string, number>();
  for (const meaning of meanings)
    for (const [feature, strength] of meaning)
      all.set(feature, Math.max(all.get(feature) ?? 0, strength));
  return all;
}

/** Weight of all that is said. */
export function weightIn(meaning: Meaning, weightOf: Read['weightOf']): number {
  let weight = 0;
  for (const [feature, strength] of meaning) weight += strength * weightOf(feature);
  return weight;
}

/** Weight of what is said by both, as strongly as the weaker says it. */
export function weightShared(a: Meaning, b: Meaning, weightOf: Read['weightOf']): number {
  let weight = 0;
  for (const [feature, strength] of a) {
    const other = b.get(feature);
    if (other !== undefined) weight += Math.min(strength, other) * weightOf(feature);
  }
  return weight;
}
