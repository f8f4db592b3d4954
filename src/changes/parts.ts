import type { Change, SystemFacts } from './facts.ts';
import { same } from './values.ts';

type Item = SystemFacts['definition']['items'][number];
type Element = Item['elements'][string];

/** Fields of an element that say how it behaves, with what a reader calls them and their unit. */
const FIELDS: Readonly<Record<string, readonly [string, string]>> = {
  rating: ['rating', ' A'],
  standard: ['standard', ''],
  watts: ['power', ' W'],
  powerFactor: ['power factor', ''],
  ratedVolts: ['rated voltage', ' V'],
  operates: ['share of rated voltage it operates at', ''],
  holds: ['share of rated voltage it holds at', ''],
  ohms: ['resistance', ' Ω'],
  volts: ['voltage', ' V'],
  current: ['kind of current', ''],
  earthing: ['earthing of the supply', ''],
  draws: ['what it is', ''],
};

/** What a device has inside it, in whatever it stands. */
export type Inside = Pick<Item, 'elements' | 'mechanism' | 'outcomes'>;

/** What differs inside a device as such, in words, by its id: told of the device, not of its items. */
export type Explained = ReadonlyMap<string, ReadonlySet<string>>;

/** Items that came and went, other devices, and what differs inside those that stayed. */
export function itemChanges(
  before: SystemFacts,
  after: SystemFacts,
  explained: Explained = new Map(),
): Change[] {
  const now = new Map(after.definition.items.map((item) => [item.reference, item]));
  const old = new Map(before.definition.items.map((item) => [item.reference, item]));
  const changes: Change[] = [];
  for (const [reference, was] of old) {
    const is = now.get(reference);
    if (!is) changes.push({ kind: 'item', words: `${nameOf(was)} removed` });
    else if (is.device !== was.device && !sameInside(was, is))
      changes.push({ kind: 'item', words: `${reference} is now ${is.title}, was ${was.title}` });
    else {
      const told = was.device === is.device ? explained.get(is.device) : undefined;
      for (const { kind, words } of partChanges(was, is))
        if (!told?.has(words)) changes.push({ kind, words: `${nameOf(is)}: ${words}` });
    }
  }
  for (const [reference, is] of now)
    if (!old.has(reference))
      changes.push({ kind: 'item', words: `${nameOf(is)} added, at ${is.place}` });
  return changes;
}

const nameOf = ({ title, reference }: Item) => `${title} ${reference}`;

/** Another entry that describes the same equipment is a rewording. */
const sameInside = (was: Item, is: Item) => partChanges(was, is).length === 0;

/** What differs inside a device: of its protection, and of the rest. */
export function partChanges(was: Inside, is: Inside): Change[] {
  const changes: Change[] = [];
  const part = (words: string, element?: Element) =>
    changes.push({ kind: element && PROTECTS.has(element.kind) ? 'protection' : 'part', words });
  for (const [name, old] of Object.entries(was.elements)) {
    const now = is.elements[name];
    if (!now) part(`${kindAndName(name, old)} removed`, old);
    else for (const words of elementChanges(name, old, now)) part(words, now);
  }
  for (const [name, now] of Object.entries(is.elements))
    if (!was.elements[name]) part(`${kindAndName(name, now)} added${endsText(now)}`, now);
  if (!same(was.mechanism, is.mechanism)) part('moves under another rule');
  for (const name of new Set([...Object.keys(was.outcomes), ...Object.keys(is.outcomes)])) {
    const [a, b] = [was.outcomes[name], is.outcomes[name]];
    if (!a) part(`“${b!.title}” can now be seen`);
    else if (!b) part(`“${a.title}” can no longer be seen`);
    else if (!same(a.when, b.when)) part(`“${b.title}” is so under another rule`);
  }
  return changes;
}

function elementChanges(name: string, old: Element, now: Element): string[] {
  if (old.kind !== now.kind) return [`${name} is now a ${kindText(now)}, was a ${kindText(old)}`];
  const words: string[] = [];
  if (!same(ends(old), ends(now)))
    words.push(`${kindAndName(name, now)} now lies${endsText(now)}, was${endsText(old)}`);
  if (!same(old.closed, now.closed)) {
    const inverse = same(old.closed, { not: now.closed }) || same({ not: old.closed }, now.closed);
    words.push(
      `${kindAndName(name, now)} ${inverse ? 'now closes when it opened before, and opens when it closed' : 'closes under another rule'}`,
    );
  }
  for (const [field, [title, unit]] of Object.entries(FIELDS))
    if (old[field] !== now[field])
      words.push(
        `${kindAndName(name, now)}: ${title} now ${value(now[field], unit)}, was ${value(old[field], unit)}`,
      );
  if (!same(old.residual, now.residual))
    words.push(
      `${kindAndName(name, now)}: residual current now ${residual(now)}, was ${residual(old)}`,
    );
  if (old.poweredBy !== now.poweredBy)
    words.push(`${kindAndName(name, now)} is now powered by ${now.poweredBy ?? 'nothing else'}`);
  return words;
}

/** Elements that protect, or say how the supply is earthed. */
const PROTECTS = new Set(['fuse', 'breaker', 'mains']);

const KINDS: Readonly<Record<string, string>> = {
  link: 'join',
  breaker: 'MCB',
  sensing: 'sensing input',
  source: 'extra-low-voltage source',
  mains: 'supply',
};

const kindText = ({ kind }: Element) => KINDS[kind] ?? kind;

function kindAndName(name: string, element: Element): string {
  const kind = kindText(element);
  const known = typeof element.name === 'string' ? element.name : name;
  return known.includes(kind) ? known : `${kind} “${known}”`;
}

const ends = ({ between, line, neutral, earth }: Element) => between ?? [line, neutral, earth];

const residual = (element: Element) => {
  const { amps } = (element.residual ?? {}) as { amps?: number };
  return amps === undefined ? 'none' : `${amps * 1000} mA`;
};

const endsText = (element: Element) =>
  Array.isArray(element.between) ? ` between ${element.between.join(' and ')}` : '';

const value = (what: unknown, unit: string) =>
  what === undefined ? 'none' : `${String(what)}${unit}`;
