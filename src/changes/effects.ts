import type { Change, SystemFacts } from './facts.ts';

type Mode = SystemFacts['modes'][number];

/** What the changes do: outcomes and readings that are computed otherwise now. */
export function effects(
  before: SystemFacts,
  after: SystemFacts,
  modes: ReadonlyMap<Mode, Mode>,
): Change[] {
  return [...outcomes(after, modes), ...readings(before, after, modes)];
}

function outcomes(after: SystemFacts, modes: ReadonlyMap<Mode, Mode>): Change[] {
  const titles = new Map(
    after.definition.items.flatMap(({ reference, title, outcomes }) =>
      Object.entries(outcomes).map(([name, outcome]) => [
        `${reference}.${name}`,
        `“${outcome.title}” at ${title} ${reference}`,
      ]),
    ),
  );
  const told = new Map<string, string[]>();
  for (const [was, is] of modes)
    for (const [name, now] of Object.entries(is.outcomes)) {
      const then = was.outcomes[name];
      if (then === undefined || then === now) continue;
      const words = `${titles.get(name) ?? name}: now ${seen(now)}, was ${seen(then)}`;
      told.set(words, [...(told.get(words) ?? []), is.title]);
    }
  return [...told].map(([words, titles]) => ({
    kind: 'outcome',
    words: `${words} (${titles.join('; ')})`,
  }));
}

const seen = (value: boolean | 'hunting') =>
  value === 'hunting' ? 'hunting' : value ? 'so' : 'not so';

/** By pair of terminals, the modes in which the reading is of another class. */
function readings(
  before: SystemFacts,
  after: SystemFacts,
  modes: ReadonlyMap<Mode, Mode>,
): Change[] {
  const instrument = after.instruments[0]?.id;
  if (!instrument) return [];
  const oldPairs = new Map(before.pairs.map((pair) => [ends(pair), pair.id]));
  const changes: Change[] = [];
  for (const pair of after.pairs) {
    const old = oldPairs.get(ends(pair));
    if (!old) continue;
    const differing = new Map<string, string[]>();
    for (const [was, is] of modes) {
      const then = before.readings[was.id]?.[instrument]?.[old]?.[2];
      const now = after.readings[is.id]?.[instrument]?.[pair.id]?.[2];
      if (!then || !now || then === now) continue;
      const words = `now ${now}, was ${then}`;
      differing.set(words, [...(differing.get(words) ?? []), is.title]);
    }
    for (const [words, titles] of differing)
      changes.push({
        kind: 'reading',
        words: `${pair.from} to ${pair.to}: ${words} (${titles.join('; ')})`,
      });
  }
  return changes;
}

const ends = ({ from, to }: { readonly from: string; readonly to: string }) =>
  [from, to].sort().join('|');
