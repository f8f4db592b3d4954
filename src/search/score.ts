import { type Meaning, meaningOf } from './meaning.ts';
import type { Kind, Name } from './names.ts';
import {
  type Read,
  readNames,
  type Searched,
  thingsIn,
  weightIn,
  weightShared,
} from './reading.ts';
import { joined, spaced } from './text.ts';
import { holdsUnknown, wordsShared } from './words-index.ts';

/**
 * How much an answer of a kind counts: where a state is named, what is wrong before what there
 * is; where a colour is, the terminals it lies in; else entries before their parts.
 */
function weightOfKind(kind: Kind, said: ReadonlySet<Said>): number {
  if (kind === 'symptom') return said.has('state') ? 1.3 : 0.9;
  if (kind === 'terminal') return said.has('colour') ? 1.1 : 0.7;
  return kind === 'system' ? 1.05 : 1;
}

type Said = 'state' | 'colour';

const PREFIX: Readonly<Record<Said, string>> = { state: 'state ', colour: 'word colour ' };

function saidIn(meaning: Meaning): ReadonlySet<Said> {
  const features = [...meaning.keys()];
  const kinds: readonly Said[] = ['state', 'colour'];
  return new Set(kinds.filter((kind) => features.some((each) => each.startsWith(PREFIX[kind]))));
}

/** Least share of what is asked that an answer must speak of. */
const LEAST_SHARE = 0.42;
/** Of an answer's score, the part for the one of its labels that fits best. */
const BY_LABEL = 0.65;
/** What holding the words adds to saying the same: enough to tell equals apart. */
const BY_WORDS = 0.15;

/** Scores of a label that is what was asked letter for letter: above every other. */
export const EXACT = 8;
const EXACT_NAME = 9;
/** Scores of one that begins so. */
const BEGINS = 0.8;
const ALIAS_BEGINS = 0.7;

/** A name that answers a query: the higher the score, the better. */
export interface Ranked {
  readonly name: Name;
  readonly score: number;
  /** Whether it is what is asked about, whatever is said of it. */
  readonly askedAbout?: boolean;
  /** The alias by which it was found. */
  readonly alias: string | undefined;
}

/** Names that say what a query says, or hold its words, each with its score, in no order. */
export function scored(query: string, searched: Searched): Ranked[] {
  const shared = wordsShared(query, searched.names);
  const said = sayingTheSame(query, searched).map((each) => {
    // What is asked for letter for letter is asked for wholly, however often else it is said.
    const more = each.score >= EXACT ? 0 : BY_WORDS * (shared.get(each.name.url) ?? 0);
    return { ...each, score: each.score + more };
  });
  // A word that no page holds is what is asked for, and those beside it are not.
  if (holdsUnknown(query, searched)) return said;
  const known = new Set(said.map(({ name }) => name));
  const others = searched.names.flatMap((name): Ranked[] => {
    const words = known.has(name) ? undefined : shared.get(name.url);
    return words === undefined ? [] : [{ name, score: BY_WORDS * words, alias: undefined }];
  });
  return [...said, ...others];
}

/** Names that say enough of what a query says. */
function sayingTheSame(query: string, searched: Searched): Ranked[] {
  const whole = joined(query);
  const phrase = spaced(query);
  if (whole === '') return [];
  const { weightOf, names: read, words } = readNames(searched);
  const meanings = meaningsOf(query, words).map((meaning) => ({
    meaning,
    things: thingsIn(meaning),
    said: saidIn(meaning),
    weight: weightIn(meaning, weightOf),
  }));
  return read.flatMap((each): Ranked[] => {
    const { name, labels } = each;
    const exact = labels.find((label) => label.joined === whole);
    if (exact) {
      const own = exact === labels[0];
      // A word that explains a terminal's letters comes before the dozen terminals marked so.
      const score = own && name.kind !== 'terminal' ? EXACT_NAME : EXACT;
      return [{ name, score, alias: own ? undefined : exact.text }];
    }
    let best = beginning(each, phrase);
    for (const { meaning, things, said, weight } of meanings) {
      if (weight === 0) continue;
      const share = weightShared(meaning, each.whole, weightOf) / weight;
      const askedAbout = isAskedAbout(each, things, said);
      if (share < LEAST_SHARE && !askedAbout) continue;
      let label = { fit: 0, at: 0 };
      labels.forEach((other, at) => {
        const shared = weightShared(meaning, other.meaning, weightOf);
        if (shared === 0) return;
        const fit = (shared / weight) * (0.5 + (0.5 * shared) / other.weight);
        if (fit > label.fit) label = { fit, at };
      });
      const score = weightOfKind(name.kind, said) * (BY_LABEL * label.fit + (1 - BY_LABEL) * share);
      if (score > (best?.score ?? 0))
        best = {
          name,
          score,
          askedAbout,
          alias: label.at > 0 ? labels[label.at]!.text : undefined,
        };
    }
    return best ? [best] : [];
  });
}

/** Whether it is the device, or the terminal of a colour, whose every word a query names. */
function isAskedAbout(
  { name, labels, whole }: Read['names'][number],
  things: Meaning,
  said: ReadonlySet<Said>,
): boolean {
  const asked = [...things].filter(([, strength]) => strength === 1);
  const namesAll = (meaning: Meaning) => asked.every(([feature]) => meaning.has(feature));
  if (asked.length === 0) return false;
  if (name.kind === 'device') return labels.some(({ meaning }) => namesAll(meaning));
  return name.kind === 'terminal' && said.has('colour') && namesAll(whole);
}

/** A name one of whose labels begins with what was typed so far. */
function beginning({ name, labels }: Read['names'][number], phrase: string): Ranked | undefined {
  if (phrase.length < SHORTEST_BEGINNING) return undefined;
  const at = labels.findIndex((label) => label.spaced.startsWith(phrase));
  if (at < 0) return undefined;
  return at === 0
    ? { name, score: BEGINS, alias: undefined }
    : { name, score: ALIAS_BEGINS, alias: labels[at]!.text };
}

/** What a query may mean: as it stands, or with its last word finished. */
function meaningsOf(query: string, words: readonly string[]): Meaning[] {
  const [, before = '', last = ''] = /^(.*?)([\p{L}\p{N}]+)\s*$/su.exec(query.toLowerCase()) ?? [];
  const finished =
    last.length < SHORTEST_BEGINNING || words.includes(last)
      ? []
      : words.filter((word) => word.startsWith(last)).slice(0, MOST_ENDINGS);
  const queries = finished.length > 0 ? finished.map((word) => before + word) : [query];
  return queries.map(meaningOf);
}

/** Shortest beginning of a word that is finished, and how many endings are tried. */
const SHORTEST_BEGINNING = 3;
const MOST_ENDINGS = 4;
