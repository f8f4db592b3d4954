import { fold, spaced, wordsOf } from './text.ts';
import {
  BREAKS,
  DENIED,
  DROPPED,
  ELSEWHERE,
  NONE,
  OR,
  OTHERS,
  PARTS,
  STATES,
  type TradeWord,
} from './trade-words.ts';

/**
 * What a phrase says: its features (`part valve`, `state stuck`, `valve is stuck`,
 * `90 V`, a word by its stem), each with how strongly it is said, from 0 to 1. Entries and
 * what is typed are read the same way, so that they can be compared.
 */
export type Meaning = ReadonlyMap<string, number>;

/** How strongly the wider meaning of a word is said by it. */
const WIDER = 0.5;

/** A voltage up to this is extra-low: IEC 61140, alternating current. */
const EXTRA_LOW_V = 50;
/** Where live begins: the glossary’s Live, part volts and dead says how it comes about. */
const LIVE_V = 204.7;

const UNITS: Readonly<Record<string, string>> = {
  ...{ v: 'V', volt: 'V', volts: 'V', vac: 'V', voltage: 'V' },
  ...{ a: 'A', amp: 'A', amps: 'A' },
  ...{ mm: 'mm2', mm2: 'mm2' },
};

/** Turned apart: will not turn the heating off, which is said as will not turn off the heating. */
const APART =
  /\b((?:cant|cannot|wont|doesnt|not|never) (?:turn|switch|shut|go|come)(?:ing)?) ((?:\p{L}+ ){1,3})(off|on)\b/u;

/** Numbers that are written out in names: a twelve-way strip is asked for as 12 way. */
const NUMBERS: Readonly<Record<string, string>> = {
  ...{ two: '2', three: '3', four: '4', five: '5', six: '6', eight: '8' },
  ...{ ten: '10', twelve: '12', 'twenty four': '24', 'twenty-four': '24' },
};
const WRITTEN_OUT = new RegExp(`\\b(?:${Object.keys(NUMBERS).reverse().join('|')})\\b`, 'gu');

const stemOfWord = new Map<string, string>();

type Kind = 'part' | 'state' | 'word' | 'elsewhere';

/** A way of saying something, word by word. */
interface Way {
  readonly words: readonly string[];
  readonly stems: readonly string[];
  readonly kind: Kind;
  readonly word: TradeWord;
}

/** The ways that begin with a stem, the longest first. */
const WAYS: ReadonlyMap<string, readonly Way[]> = (() => {
  const ways = new Map<string, Way[]>();
  const add = (kind: Kind, words: readonly TradeWord[]) => {
    for (const word of words)
      for (const said of word.said) {
        const tokens = tokensOf(said);
        const way = { words: tokens, stems: tokens.map(stemOf), kind, word };
        const first = way.stems[0]!;
        ways.set(first, [...(ways.get(first) ?? []), way]);
      }
  };
  add('part', PARTS);
  add('state', STATES);
  add('word', OTHERS);
  add('elsewhere', ELSEWHERE);
  for (const list of ways.values()) list.sort((a, b) => b.words.length - a.words.length);
  return ways;
})();

/** Every word of the trade's, as typed: known, so never put right. */
export const TRADE_WORDS: readonly string[] = [
  ...new Set([
    ...[...WAYS.values()].flatMap((ways) => ways.flatMap(({ words }) => words)),
    ...DROPPED,
    ...BREAKS,
    ...NONE,
  ]),
];

/** A stretch of a phrase as it was understood. */
type Unit =
  | { readonly kind: Kind; readonly word: TradeWord }
  | { readonly kind: 'none' | 'break' | 'for' }
  | { readonly kind: 'other'; readonly features: Meaning };

/** Reads a phrase. */
export function meaningOf(phrase: string): Meaning {
  const meaning = new Map<string, number>();
  const say = (feature: string, strength: number) => {
    meaning.set(feature, Math.max(meaning.get(feature) ?? 0, strength));
  };
  const units = unitsOf(tokensOf(phrase));
  for (const unit of units) {
    if (unit.kind === 'other') for (const [feature, how] of unit.features) say(feature, how);
    else if ('word' in unit)
      for (const [means, strength] of meaningsOf(unit.word)) say(`${unit.kind} ${means}`, strength);
  }
  const states = statesOfParts(units);
  if (meaning.has('unit V') && states.some(([part, state]) => isDeadCore(part, state))) {
    meaning.delete('part extra-low voltage');
    say('part ghost volts', 1);
    say('part part volts', 1);
  }
  for (const [part, state] of states)
    for (const [thing, much] of meaningsOf(part))
      for (const [how, strongly] of meaningsOf(state)) say(`${thing} is ${how}`, much * strongly);
  return meaning;
}

/** Volts on a core that is dead or off: induced, whatever their figure. */
const isDeadCore = (part: TradeWord, { means, also }: TradeWord): boolean =>
  [part.means, ...part.also].some((each) => each === 'core' || each === 'live') &&
  ['none', 'off', 'removed'].some((each) => each === means || also.includes(each));

/** Parts whose state is that of the thing they are on. */
const SHOWING = new Set(['display', 'lamp']);

/** States by what they mean. */
const STATE = Object.fromEntries(STATES.map((word) => [word.means, word]));

const meaningsOf = ({ means, also }: TradeWord): [string, number][] => [
  [means, 1],
  ...also.map((wider): [string, number] => [wider, WIDER]),
];

/** Which state is said of which part: the one before it, else the one after it. */
function statesOfParts(units: readonly Unit[]): [TradeWord, TradeWord][] {
  const pairs: [TradeWord, TradeWord][] = [];
  const partAt = (at: number, step: 1 | -1, stopAtBreak: boolean) => {
    for (let i = at + step; i >= 0 && i < units.length; i += step) {
      const unit = units[i]!;
      if (unit.kind === 'part') return unit.word;
      if (unit.kind === 'break' && stopAtBreak) return undefined;
    }
    return undefined;
  };
  units.forEach((unit, at) => {
    if (unit.kind === 'none') {
      const part = partAt(at, 1, true) ?? partAt(at, -1, true);
      if (part) pairs.push([part, STATE.none!]);
    }
    if (unit.kind !== 'state') return;
    // Not coming on for heating: said of what follows too.
    const whatFor = units[at + 1]?.kind === 'for' ? partAt(at, 1, true) : undefined;
    if (whatFor) pairs.push([whatFor, unit.word]);
    const part = partAt(at, -1, true) ?? partAt(at, 1, true) ?? partAt(at, -1, false);
    if (part) pairs.push([part, unit.word]);
    // A timer's display that is blank is a timer that is blank.
    const shown = units[at - 1];
    const owner = units[at - 2];
    if (shown?.kind === 'part' && SHOWING.has(shown.word.means) && owner?.kind === 'part')
      pairs.push([owner.word, unit.word]);
  });
  return pairs;
}

function unitsOf(tokens: readonly string[]): Unit[] {
  const units: Unit[] = [];
  const stems = tokens.map(stemOf);
  let denied = false;
  for (let at = 0; at < tokens.length; ) {
    const token = tokens[at]!;
    const way = wayAt(tokens, stems, at);
    const number = way ? undefined : numberAt(tokens, at);
    if (way) {
      const opposite = units.at(-1)?.kind === 'none' ? DENIED[way.word.means] : undefined;
      if (opposite === undefined) units.push({ kind: way.kind, word: way.word });
      else units.splice(-1, 1, { kind: 'state', word: STATE[opposite]! });
      at += way.words.length;
      continue;
    }
    if (number) {
      units.push({ kind: 'other', features: number.features });
      at += number.tokens;
      continue;
    }
    if (NONE.has(token) || (denied && OR.has(token))) {
      units.push({ kind: 'none' });
      denied = true;
    } else if (token === ',' || BREAKS.has(token)) {
      units.push({ kind: 'break' });
      denied = false;
    }
    if (token === 'for') units.push({ kind: 'for' });
    if (token !== ',' && !NONE.has(token) && !DROPPED.has(token))
      units.push({ kind: 'other', features: new Map([[stems[at]!, 1]]) });
    at += 1;
  }
  return units;
}

/** The longest way of saying something that begins at a word, letter for letter before by stems. */
function wayAt(tokens: readonly string[], stems: readonly string[], at: number): Way | undefined {
  const begun = WAYS.get(stems[at]!);
  if (!begun) return undefined;
  const ways = begun.filter((way) => way.stems.every((stem, i) => stems[at + i] === stem));
  const longest = ways.filter(({ words }) => words.length === ways[0]!.words.length);
  return (
    longest.find(({ words }) => words.every((word, i) => tokens[at + i] === word)) ?? longest[0]
  );
}

/** A number and the unit after it, and what a voltage of that size is called. */
function numberAt(
  tokens: readonly string[],
  at: number,
): { readonly features: Meaning; readonly tokens: number } | undefined {
  if (!/^\d/.test(tokens[at]!)) return undefined;
  const value = Number(tokens[at]!.replace(',', '.'));
  if (!Number.isFinite(value)) return undefined;
  const unit = UNITS[tokens[at + 1] ?? ''];
  const features = new Map([[`number ${value}`, 1]]);
  if (unit) features.set(`unit ${unit}`, WIDER);
  if (unit === 'V' && value > EXTRA_LOW_V && value < LIVE_V) features.set('part part volts', 1);
  if (unit === 'V' && value <= EXTRA_LOW_V) features.set('part extra-low voltage', 1);
  return { features, tokens: unit ? 2 : 1 };
}

/** Folded words, numbers apart from letters after them, stops and commas as `,`. */
function tokensOf(text: string): string[] {
  return (
    fold(text)
      .replaceAll("'", '')
      .replace(APART, '$1 $3 $2')
      .replace(WRITTEN_OUT, (number) => NUMBERS[number]!)
      .match(/\p{L}[\p{L}\p{N}]*|\p{N}+(?:[.,]\p{N}+)?|[.,;:!?]/gu) ?? []
  ).map((token) => (/^[.;:!?]$/.test(token) ? ',' : token));
}

/** A word without its ending; asked for thousands of times, of the same few words. */
export function stemOf(word: string): string {
  const known = stemOfWord.get(word);
  if (known !== undefined) return known;
  const bare = word.replace(/e?(?:ing|ed|s)$|e$/, '');
  const stem = bare.length >= 3 ? bare : word;
  const single = stem.length > 3 ? stem.replace(/([^aeiloums])\1$/, '$1') : stem;
  stemOfWord.set(word, single);
  return single;
}

/**
 * The words of a text, folded, each thing by its own name: `hw`, `dhw` and `hot water` are the
 * same two words, so that no entry is found before another for how it is spelt there.
 */
export function wordsByName(text: string): string[] {
  const tokens = wordsOf(text);
  const stems = tokens.map(stemOf);
  const words: string[] = [];
  for (let at = 0; at < tokens.length; ) {
    const way = wayAt(tokens, stems, at);
    const thing = way?.kind === 'part' ? way : undefined;
    words.push(...(thing ? wordsOf(thing.word.means) : [tokens[at]!]));
    at += thing?.words.length ?? 1;
  }
  return words;
}

/** A query without the words that may be left out, for the pages' text; as it is when none is left. */
export function wordsThatMatter(query: string): string {
  const words = spaced(query).split(' ');
  const mattering = words.filter((word) => !DROPPED.has(word) && !NONE.has(word));
  return mattering.length > 0 && mattering.length < words.length ? mattering.join(' ') : query;
}

/** The words of labels, given with single spaces, and of the trade; the most used first. */
export function wordsKnown(labels: readonly string[]): string[] {
  const counts = new Map<string, number>();
  for (const word of [...labels.flatMap((label) => label.split(' ')), ...TRADE_WORDS])
    counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts].sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1)).map(([word]) => word);
}
