import { readdirSync, readFileSync } from 'node:fs';
import { buildNetwork } from '../../src/circuit/index.ts';
import { type Entries, loadEntries } from '../../src/entries/index.ts';
import { COLOUR_CODES } from '../../src/published/index.ts';
import { cableWords, itemName } from '../../src/wiring/index.ts';
import { terminalWords } from '../../src/words/index.ts';

/** What stands in a sentence for what differs from system to system, and all that may stand there. */
type Names = readonly (readonly [text: string, stands: string])[];

/** Every name that the shipped entries give, the longest first. */
function namesOf(entries: Entries): Names {
  const names = new Map<string, string>();
  const add = (stands: string, ...texts: readonly (string | undefined)[]) => {
    for (const text of texts)
      if (text?.includes(' ')) names.set(text.replaceAll("'", '’').toLowerCase(), stands);
  };
  const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
  for (const data of devices.values()) {
    add('{device}', data.title);
    for (const one of Object.values(data.elements)) add('{part}', one.name);
    for (const { title, otherwise } of Object.values(data.conditions))
      add('{condition}', title, otherwise);
    for (const { title, otherwise } of Object.values(data.outcomes))
      add('{seen}', title, otherwise);
    for (const { title } of Object.values(data.openings)) add('{opening}', title);
  }
  for (const [id, { data }] of entries.systems) {
    const network = buildNetwork(id, data, devices);
    for (const mode of Object.values(data.modes)) add('{mode}', mode.title);
    for (const { reference, title, place } of network.items.values()) {
      const name = itemName(network, reference);
      add('{item}', `${name} ${reference}`, title);
      add('{place}', place);
    }
    for (const cable of Object.keys(data.cables)) {
      const words = cableWords(network, cable);
      add('{cable}', words, words.replace(` ${cable}`, ''));
    }
  }
  for (const { data } of entries.symptoms.values()) add('{complaint}', data.title, data.complaint);
  for (const { data } of entries.systems.values()) add('{system}', data.title);
  return [...names].toSorted(([a], [b]) => b.length - a.length);
}

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** Words of all terminals, where one stands: behind a preposition or before another. */
function terminalsOf({ devices }: Entries): RegExp {
  const words = [...devices.values()]
    .flatMap(({ data }) => Object.keys(data.terminals).map(terminalWords))
    .toSorted((a, b) => b.length - a.length);
  const any = `(?:${[...new Set(words)].map(escaped).join('|')}|\\d+)`;
  const before = '(?<=(?:^|\\b(?:in|of|from|to|link|Link|Ohms,) |: ))';
  return new RegExp(`${before}${any}(?= (?:at|in|to|of|is|stays)\\b|[,.;]|$)`, 'gi');
}

/** An answer before what it leads to. */
const ANSWER =
  /^(?:live|no volts|part volts|high|found|continuity|a resistance|open circuit|comes and goes|nothing wrong seen|call voltage there|no call voltage|\{seen\}|[\w’ -]{4,40}?) (?=\{(?:colour|item|cable)\}|Burnt joint|Cores crossed|Polarity|Damp|Short between|Leakage|Neutral|Link |Second supply|Green-yellow)/;

/** A sentence with all that differs put aside: names, colours, codes, numbers. */
export function patternsIn(content: string): (sentence: string) => string {
  const { entries } = loadEntries(content);
  const names = namesOf(entries);
  const stands = new Map(names);
  const all = new RegExp(
    `(?<![\\w’-])(?:${names.map(([text]) => escaped(text)).join('|')})(?![\\w’-])`,
    'gi',
  );
  const terminals = terminalsOf(entries);
  const colours = new RegExp(`\\b(?:${Object.values(COLOUR_CODES).join('|')})\\b`, 'gi');
  return (sentence) =>
    sentence
      .replace(all, (text) => stands.get(text.toLowerCase()) ?? text)
      .replace(colours, '{colour}')
      .replace(/\b[A-Z]\d{1,2}\b/g, '{code}')
      .replace(terminals, '{terminal}')
      .replace(/, or \d+ others?$/, '')
      .replace(ANSWER, '')
      .replace(/\d+(?:[.,]\d+)*/g, '0')
      .replace(/(\{[a-z]+\})(?:, \1)+( and \1)?/g, '$1, …')
      .replace(/(\{[a-z]+\}) and \1/g, '$1, …');
}

/** All that the entries say in their own words: what a sentence is looked for in. */
export function ownWords(content: string): (sentence: string) => boolean {
  const all = readdirSync(content, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.mdx'))
    .map((name) => readFileSync(`${content}/${name}`, 'utf8'))
    .join('\n')
    .replaceAll("'", '’')
    .replace(/\s+/g, ' ');
  return (sentence) => all.includes(sentence);
}
