import type { Change, SystemFacts } from './facts.ts';

type Mode = SystemFacts['modes'][number];

/** Mode before → the same mode now: by id, else the one with the same conditions. */
export function modePairs(before: SystemFacts, after: SystemFacts): Map<Mode, Mode> {
  const pairs = new Map<Mode, Mode>();
  const free = new Set(after.modes);
  const pair = (was: Mode, is: Mode | undefined) => {
    if (!is) return;
    pairs.set(was, is);
    free.delete(is);
  };
  for (const was of before.modes)
    pair(
      was,
      after.modes.find(({ id }) => id === was.id),
    );
  for (const was of before.modes)
    if (!pairs.has(was))
      pair(
        was,
        [...free].find((is) => differing(was, is).length === 0),
      );
  return pairs;
}

/** Modes that came and went, and what is set otherwise in those that stayed. */
export function modeChanges(
  before: SystemFacts,
  after: SystemFacts,
  pairs: ReadonlyMap<Mode, Mode>,
): Change[] {
  const changes: Change[] = [];
  const mode = (words: string) => changes.push({ kind: 'mode', words });
  for (const was of before.modes) {
    const is = pairs.get(was);
    if (!is) mode(`Mode “${was.title}” removed`);
    else {
      // A condition of an item that came or went is told with the item.
      for (const [condition, now] of differing(was, is))
        mode(`Mode “${is.title}”: ${condition} is now ${now ? 'so' : 'not so'}`);
      if (followed(before, was) !== followed(after, is, pairs))
        mode(`Mode “${is.title}” now ${is.after ? 'follows another mode' : 'starts from rest'}`);
    }
  }
  const kept = new Set(pairs.values());
  for (const is of after.modes) if (!kept.has(is)) mode(`Mode “${is.title}” added`);
  return changes;
}

const differing = (was: Mode, is: Mode): [string, boolean][] =>
  Object.entries(is.conditions).filter(
    ([name, now]) => was.conditions[name] !== undefined && was.conditions[name] !== now,
  );

/** Id, as it was before, of the mode a mode follows. */
function followed(
  { modes }: SystemFacts,
  mode: Mode,
  pairs?: ReadonlyMap<Mode, Mode>,
): string | null {
  const target = modes.find(({ id }) => id === mode.after);
  if (!target) return null;
  if (!pairs) return target.id;
  return [...pairs].find(([, is]) => is === target)?.[0].id ?? `new ${target.id}`;
}
