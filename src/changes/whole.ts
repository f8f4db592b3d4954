import { alikeLines, type Unexplained } from './alike.ts';
import { compareSystems } from './compare.ts';
import { entryChanges, explainedBy } from './entries.ts';
import type { EntriesFacts } from './entry-facts.ts';
import type { Change, SystemFacts } from './facts.ts';
import { type ChangeLine, type Found, inOrder, lineOf, withFollowing } from './line.ts';
import { type ChangeKind, RANK_NAMES } from './ranks.ts';
import { toldChanges } from './told.ts';

/** One state of a whole reference: a build, a release, or as it stands. */
export interface ReferenceFacts {
  readonly systems: ReadonlyMap<string, SystemFacts>;
  /** Absent from builds that did not say what entries say; circuits alone are then compared. */
  readonly entries?: EntriesFacts | undefined;
}

/** What a change of a circuit is among all changes. */
const CIRCUIT: Readonly<Record<Change['kind'], ChangeKind>> = {
  item: 'wiring',
  core: 'wiring',
  cable: 'wiring',
  link: 'wiring',
  length: 'cable length',
  part: 'part',
  protection: 'protection',
  mode: 'mode',
  marking: 'marking',
  outcome: 'outcome',
  reading: 'reading',
};

interface SystemPair {
  readonly was: SystemFacts;
  readonly now: SystemFacts;
  readonly named: { readonly id: string; readonly title: string };
}

/**
 * Everything that a reader of the later state would do, read or think otherwise, gravest first,
 * each said once: a device that is otherwise in nine systems is one line with nine systems, and
 * what is computed otherwise because of a change stands under it. Another order of keys, other
 * line breaks, comments and another day are no change.
 */
export function compareReferences(before: ReferenceFacts, after: ReferenceFacts): ChangeLine[] {
  const both = before.entries && after.entries && ([before.entries, after.entries] as const);
  const explained = both ? explainedBy(...both) : undefined;
  const pairs = pairsOf(before, after);
  const named = new Map(pairs.map(({ named }) => [named.id, named]));
  const ofEntries = both
    ? entryChanges(...both, {
        systems: named,
        ofDevice: (id) =>
          pairs.filter(({ was, now }) => has(was, id) && has(now, id)).map((pair) => pair.named),
      })
    : [];
  const ofCircuits = new Map<string, ChangeLine[]>();
  const effects = new Map<string, Found[]>();
  for (const { was, now, named } of pairs) {
    const compared = compareSystems(was, now, explained);
    ofCircuits.set(
      named.id,
      compared.changes.map((change) => lineOf(pageOf(named), found(change), [named])),
    );
    effects.set(named.id, [...compared.effects.map(found), ...toldChanges(was, now)]);
  }
  return inOrder([
    ...alone(before, after, pairs),
    ...withEffects([...ofCircuits.values()].flat(), ofEntries, pairs, effects),
  ]);
}

const has = ({ definition }: SystemFacts, device: string) =>
  definition.items.some((item) => item.device === device);
const found = ({ kind, words }: Change): Found => ({ kind: CIRCUIT[kind], words });
const pageOf = ({ id, title }: SystemPair['named']) => ({ title, path: `systems/${id}/` });

/** Systems that are there before and after: by their id, or by one that they had before. */
function pairsOf(before: ReferenceFacts, after: ReferenceFacts): SystemPair[] {
  return [...after.systems.values()].flatMap((now) => {
    const was = [now.id, ...now.formerly].flatMap((id) => before.systems.get(id) ?? [])[0];
    return was ? [{ was, now, named: { id: now.id, title: now.title } }] : [];
  });
}

function alone(
  before: ReferenceFacts,
  after: ReferenceFacts,
  pairs: readonly SystemPair[],
): ChangeLine[] {
  const paired = new Set(pairs.flatMap(({ was, now }) => [was, now]));
  const line = ({ id, title }: SystemFacts, kind: 'added' | 'removed') =>
    kind === 'added'
      ? lineOf(pageOf({ id, title }), { kind, words: 'System added' }, [{ id, title }])
      : lineOf({ title, path: null }, { kind, words: 'System withdrawn' });
  const left = (of: ReferenceFacts) => [...of.systems.values()].filter((one) => !paired.has(one));
  return [
    ...left(before).map((one) => line(one, 'removed')),
    ...left(after).map((one) => line(one, 'added')),
  ];
}

/**
 * Puts what is computed otherwise in a system under the gravest change in its wiring; where there
 * is none, under that of a device in it, of the complaint that a sequence starts from, or of its
 * words. What has no such cause, as after a change of Proveline itself, is told once for all systems
 * that it touches alike.
 */
function withEffects(
  circuits: readonly ChangeLine[],
  entries: readonly ChangeLine[],
  pairs: readonly SystemPair[],
  effects: ReadonlyMap<string, readonly Found[]>,
): ChangeLine[] {
  const lines = [...circuits, ...entries];
  const own: Unexplained[] = [];
  for (const { named } of pairs) {
    const left = effects.get(named.id) ?? [];
    if (left.length === 0) continue;
    const at = causeOf(lines, circuits.length, named.id);
    if (at === -1) own.push(...left.map((found) => ({ system: named, found })));
    else lines[at] = withFollowing(lines[at]!, named.title, left);
  }
  return [...lines, ...alikeLines(own)];
}

/** Index of the line that what is computed otherwise of a system comes of; -1 where none is. */
function causeOf(lines: readonly ChangeLine[], circuits: number, system: string): number {
  const inIt = lines.flatMap((line, i) =>
    line.systems.some(({ id }) => id === system) && line.kind !== 'review' ? [i] : [],
  );
  const complaints = lines.flatMap((line, i) =>
    line.kind === 'symptom' || line.about.path?.startsWith('symptoms/') ? [i] : [],
  );
  const gravest = (of: readonly number[]) =>
    of.toSorted(
      (a, b) => RANK_NAMES.indexOf(lines[a]!.rank) - RANK_NAMES.indexOf(lines[b]!.rank) || a - b,
    )[0];
  return gravest(inIt.filter((i) => i < circuits)) ?? gravest(inIt) ?? gravest(complaints) ?? -1;
}
