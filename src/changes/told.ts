import type { SystemFacts } from './facts.ts';
import type { Found } from './line.ts';
import type { ToldFacts } from './told-facts.ts';

/** Names listed in one line; the rest are counted. */
const MOST_NAMED = 6;

/** Faults, test sequences and replacements that are told otherwise of a system. */
export function toldChanges(before: SystemFacts, after: SystemFacts): Found[] {
  const { told: was } = before;
  const { told: now } = after;
  // A build of before these were told can be compared in all else.
  if (!was || !now) return [];
  return [...faultChanges(was, now), ...sequenceChanges(was, now), ...verdictChanges(was, now)];
}

function faultChanges({ faults: was }: ToldFacts, { faults: now }: ToldFacts): Found[] {
  const changes: Found[] = [];
  const come = Object.keys(now).filter((id) => !was[id]);
  const gone = Object.keys(was).filter((id) => !now[id]);
  if (come.length > 0)
    changes.push({
      kind: 'fault',
      words: `May now be wrong: ${few(come.map((id) => now[id]!.title))}`,
    });
  if (gone.length > 0)
    changes.push({
      kind: 'fault',
      words: `No longer among the faults: ${few(gone.map((id) => was[id]!.title))}`,
    });
  const kept = Object.keys(now).flatMap((id) => {
    const [a, b] = [was[id], now[id]];
    return a && b ? [{ title: b.title, a, b }] : [];
  });
  for (const [field, kind, label] of [
    ['who', 'who', 'Who may repair it'],
    ['hazard', 'hazard', 'What danger it makes'],
    ['repair', 'fault', 'Repair'],
  ] as const) {
    const differing = Map.groupBy(
      kept.filter(({ a, b }) => a[field] !== b[field]),
      ({ a, b }) => `${label}: now ${b[field] ?? 'none'}, was ${a[field] ?? 'none'}`,
    );
    for (const [words, faults] of differing)
      changes.push({ kind, words: `${words} (${few(faults.map(({ title }) => title))})` });
  }
  return changes;
}

function sequenceChanges({ sequences: was }: ToldFacts, { sequences: now }: ToldFacts): Found[] {
  const otherwise: string[] = [];
  const changes: Found[] = [];
  const sequence = (words: string) => changes.push({ kind: 'sequence', words });
  for (const id of new Set([...Object.keys(was), ...Object.keys(now)])) {
    const [a, b] = [was[id], now[id]];
    const { title } = Object.values(b ?? a ?? {})[0]!;
    if (!a) sequence(`Test sequence from “${title}” added`);
    else if (!b) sequence(`Test sequence from “${title}” taken out`);
    else {
      const both = Object.keys(b).filter((history) => a[history]);
      const firsts = both.filter((history) => a[history]!.first !== b[history]!.first);
      const [history] = firsts;
      if (history !== undefined)
        sequence(
          `Test sequence from “${title}” begins with: now ${b[history]!.first}, was ${a[history]!.first}${firsts.length < both.length ? `, where ${few(firsts)}` : ''}`,
        );
      else if (both.some((one) => a[one]!.ends !== b[one]!.ends)) otherwise.push(title);
    }
  }
  if (otherwise.length > 0)
    sequence(
      `Test ${otherwise.length === 1 ? 'sequence' : 'sequences'} from ${few(otherwise.map((title) => `“${title}”`))} ${otherwise.length === 1 ? 'ends' : 'end'} with other faults left together`,
    );
  return changes;
}

const verdictChanges = (
  { replacements: was }: ToldFacts,
  { replacements: now }: ToldFacts,
): Found[] =>
  Object.keys(now).flatMap((pair) =>
    was[pair] !== undefined && was[pair] !== now[pair]
      ? [
          {
            kind: 'replacement',
            words: `Replacement of ${pair}: now ${now[pair]}, was ${was[pair]}`,
          },
        ]
      : [],
  );

function few(names: readonly string[]): string {
  const said = names.slice(0, MOST_NAMED).join('; ');
  return names.length > MOST_NAMED ? `${said}; and ${names.length - MOST_NAMED} more` : said;
}
