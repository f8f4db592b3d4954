import { z } from 'zod';
import { coreChanges } from './cores.ts';
import { effects } from './effects.ts';
import { Change, type SystemFacts } from './facts.ts';
import { modeChanges, modePairs } from './modes.ts';
import { renamedItems, withNames } from './names.ts';
import { type Explained, itemChanges } from './parts.ts';

const Named = z.strictObject({ id: z.string(), title: z.string() });
type Named = z.infer<typeof Named>;

/** What is not as it was in one system, and what that does. */
const SystemChanges = Named.extend({
  changes: z
    .array(Change)
    .meta({ description: 'What somebody did to the wiring or the equipment' }),
  effects: z.array(Change).meta({ description: 'What is computed otherwise because of it' }),
});
export type SystemChanges = z.infer<typeof SystemChanges>;

/** One build against another. */
export const Comparison = z.strictObject({
  added: z.array(Named),
  removed: z.array(Named),
  changed: z.array(SystemChanges),
  same: z.array(Named).meta({
    description: 'Systems with nothing electrical changed, whatever their words',
  }),
});
export type Comparison = z.infer<typeof Comparison>;

/**
 * Compares two states of one system as circuits: the order of things, their prose and their
 * titles are of no matter. Where nothing differs, both lists are empty.
 * @param explained what is told of devices, and so not of their items
 */
export function compareSystems(
  before: SystemFacts,
  after: SystemFacts,
  explained?: Explained,
): SystemChanges {
  const renamed = renamedItems(before, after);
  const was = withNames(before, renamed);
  const modes = modePairs(was, after);
  const changes: Change[] = [
    ...[...renamed].map(([old, now]) => ({
      kind: 'marking' as const,
      words: `Item ${old} is now called ${now}`,
    })),
    ...itemChanges(was, after, explained),
    ...coreChanges(was, after),
    ...linkChanges(was, after),
    ...modeChanges(was, after, modes),
  ];
  return { id: after.id, title: after.title, changes, effects: effects(was, after, modes) };
}

/** Compares two builds, system by system: by its id, or by one that it says it had before. */
export function compareBuilds(
  before: ReadonlyMap<string, SystemFacts>,
  after: ReadonlyMap<string, SystemFacts>,
): Comparison {
  const named = ({ id, title }: SystemFacts): Named => ({ id, title });
  const pairs = [...after.values()].flatMap((now) => {
    const was = [now.id, ...now.formerly].flatMap((id) => before.get(id) ?? []).at(0);
    return was ? [[was, now] as const] : [];
  });
  const compared = pairs.map(([was, now]) => compareSystems(was, now));
  const paired = new Set(pairs.flat());
  const quiet = ({ changes, effects }: SystemChanges) => changes.length + effects.length === 0;
  return {
    added: [...after.values()].filter((one) => !paired.has(one)).map(named),
    removed: [...before.values()].filter((one) => !paired.has(one)).map(named),
    changed: compared.filter((one) => !quiet(one)),
    same: compared.filter(quiet).map(({ id, title }) => ({ id, title })),
  };
}

function linkChanges(before: SystemFacts, after: SystemFacts): Change[] {
  const old = linksOf(before);
  const now = linksOf(after);
  const change = (link: string, what: string): Change => ({
    kind: 'link',
    words: `Link ${link} ${what}`,
  });
  return [
    ...[...old].filter((link) => !now.has(link)).map((link) => change(link, 'removed')),
    ...[...now].filter((link) => !old.has(link)).map((link) => change(link, 'added')),
  ];
}

const linksOf = ({ branches }: SystemFacts): Set<string> =>
  new Set(
    branches
      .filter(({ kind }) => kind === 'wire link')
      .map(({ from, to }) => [from, to].sort().join(' to ')),
  );
