import type { SystemFacts } from './facts.ts';

type Items = SystemFacts['definition']['items'];

/**
 * References under which the same item stood before and stands now, where they differ. An item
 * is the same when its device is, and of several such the one with most cores to the same
 * places.
 */
export function renamedItems(before: SystemFacts, after: SystemFacts): Map<string, string> {
  const gone = absent(before.definition.items, after.definition.items);
  const come = absent(after.definition.items, before.definition.items);
  const renamed = new Map<string, string>();
  for (const old of gone) {
    const likely = come
      .filter(({ device, reference }) => device === old.device && !taken(renamed, reference))
      .map(({ reference }) => ({
        reference,
        shared: sharedEnds(before, old.reference, after, reference),
      }))
      .toSorted((a, b) => b.shared - a.shared)[0];
    if (likely) renamed.set(old.reference, likely.reference);
  }
  return renamed;
}

const absent = (these: Items, those: Items) =>
  these.filter(({ reference }) => !those.some((other) => other.reference === reference));

const taken = (renamed: ReadonlyMap<string, string>, reference: string) =>
  [...renamed.values()].includes(reference);

/** How many terminals of an item have a core to the same far end before and after. */
function sharedEnds(before: SystemFacts, old: string, after: SystemFacts, now: string): number {
  const ends = new Set(farEnds(after, now));
  return farEnds(before, old).filter((end) => ends.has(end)).length;
}

function farEnds({ wiring }: SystemFacts, item: string): string[] {
  const own = (point: string) => point.startsWith(`${item}.`);
  return wiring.flatMap(({ from, to }) => {
    if (own(from)) return [`${from.slice(item.length)} ${to}`];
    return own(to) ? [`${to.slice(item.length)} ${from}`] : [];
  });
}

/** The facts with items under their new references, everywhere they are named. */
export function withNames(facts: SystemFacts, renamed: ReadonlyMap<string, string>): SystemFacts {
  if (renamed.size === 0) return facts;
  return replaced(facts, (text) =>
    text.replaceAll(
      /\b([A-Z]{1,2}\d{1,2})(?=$|[.#/|: ])/g,
      (all, item) => renamed.get(item) ?? all,
    ),
  );
}

/** A copy of plain data with every text and key passed through a function. */
function replaced<T>(value: T, put: (text: string) => string): T {
  if (typeof value === 'string') return put(value) as T;
  if (Array.isArray(value)) return value.map((part) => replaced(part, put)) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, part]) => [put(key), replaced(part, put)]),
  ) as T;
}
