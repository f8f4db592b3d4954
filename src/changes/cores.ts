import { COLOUR_CODES, type ColourCode } from '../published/index.ts';
import type { Change, SystemFacts } from './facts.ts';

interface Core {
  readonly cable: string;
  readonly colour: string;
  /** Both ends in an order of their own, so that a core has no direction. */
  readonly ends: readonly [string, string];
  readonly sleeve: string | null;
}

/**
 * What happened to cables and their cores. Cables are paired by the cores they share, not by
 * their order; a cable under another reference is the same cable.
 */
export function coreChanges(before: SystemFacts, after: SystemFacts): Change[] {
  const old = byCable(before);
  const now = byCable(after);
  const pairs = paired(old, now);
  const changes: Change[] = [];
  for (const [id, cores] of old) {
    const other = pairs.get(id);
    if (!other) {
      changes.push({ kind: 'cable', words: `Cable ${id} removed: ${allOf(cores)}` });
      continue;
    }
    if (other !== id)
      changes.push({ kind: 'marking', words: `Cable ${id} is now called ${other}` });
    changes.push(...kindChanges(before, id, after, other));
    changes.push(...withinCable(before, cores, after, now.get(other)!, id, other));
  }
  const kept = new Set(pairs.values());
  for (const [id, cores] of now)
    if (!kept.has(id)) changes.push({ kind: 'cable', words: `Cable ${id} added: ${allOf(cores)}` });
  return changes;
}

function byCable({ definition, wiring }: SystemFacts): Map<string, Core[]> {
  const cables = new Map<string, Core[]>(definition.cables.map(({ id }) => [id, []]));
  for (const { cable, colour, from, to, sleeve } of wiring)
    cables.get(cable)?.push({
      cable,
      colour,
      sleeve,
      ends: from < to ? [from, to] : [to, from],
    });
  return cables;
}

/** Cable before → cable after, best matches first. */
function paired(old: Map<string, Core[]>, now: Map<string, Core[]>): Map<string, string> {
  const likeness = [...old].flatMap(([a, cores]) =>
    [...now].map(([b, others]) => ({ a, b, score: alike(cores, others) + (a === b ? 0.5 : 0) })),
  );
  const pairs = new Map<string, string>();
  const used = new Set<string>();
  for (const { a, b, score } of likeness.toSorted((x, y) => y.score - x.score)) {
    if (score < 0.5 || pairs.has(a) || used.has(b)) continue;
    pairs.set(a, b);
    used.add(b);
  }
  return pairs;
}

const alike = (cores: readonly Core[], others: readonly Core[]): number =>
  cores.filter((core) => others.some((other) => sameEnds(core, other))).length;

const sameEnds = (a: Core, b: Core) => a.ends[0] === b.ends[0] && a.ends[1] === b.ends[1];

function withinCable(
  before: SystemFacts,
  old: readonly Core[],
  after: SystemFacts,
  now: readonly Core[],
  oldId: string,
  id: string,
): Change[] {
  const changes: Change[] = [];
  const core = (words: string) => changes.push({ kind: 'core', words });
  const settled = new Set<string>();
  const of = (cores: readonly Core[], colour: string) => cores.find((c) => c.colour === colour);
  for (const was of old) {
    const is = of(now, was.colour);
    if (settled.has(was.colour)) continue;
    if (is && sameEnds(was, is)) {
      if (is.sleeve !== was.sleeve) changes.push(sleeveChange(id, was, is));
      continue;
    }
    const swap = is && swapped(was, is, old, now);
    if (swap) {
      settled.add(swap.other.colour);
      core(`Cable ${id}: ${named(was)} and ${named(swap.other)} crossed ${swap.where}`);
      continue;
    }
    const taking = now.find((other) => sameEnds(other, was) && !sameAsBefore(old, other));
    if (taking) {
      settled.add(taking.colour);
      core(`Cable ${id}: ${between(was)} is now ${named(taking)} instead of ${named(was)}`);
      continue;
    }
    if (!is) core(`Cable ${id}: ${named(was)} taken off ${between(was)}${left(after, id, was)}`);
    else core(`Cable ${id}: ${named(was)} ${moved(was, is)}`);
  }
  for (const is of now)
    if (!of(old, is.colour) && !settled.has(is.colour))
      core(
        `Cable ${id}: ${named(is)} now joins ${is.ends.join(' and ')}${wasSpare(before, oldId, is)}`,
      );
  return changes;
}

/** The core that this one changed ends with, and where. */
function swapped(
  was: Core,
  is: Core,
  old: readonly Core[],
  now: readonly Core[],
): { readonly other: Core; readonly where: string } | undefined {
  for (const other of old) {
    const otherNow = now.find(({ colour }) => colour === other.colour);
    if (other === was || !otherNow || sameEnds(other, otherNow)) continue;
    if (sameEnds(is, other) && sameEnds(otherNow, was)) return { other, where: 'at both ends' };
    const kept = was.ends.filter((end) => is.ends.includes(end));
    const all = (x: Core, y: Core) => [...x.ends, ...y.ends].sort().join();
    if (kept.length !== 1 || all(was, other) !== all(is, otherNow)) continue;
    const left = was.ends.find((end) => end !== kept[0])!;
    return { other, where: `at ${left.split('.')[0]}` };
  }
  return undefined;
}

const sameAsBefore = (old: readonly Core[], core: Core) =>
  old.some((was) => was.colour === core.colour && sameEnds(was, core));

const named = ({ colour }: { readonly colour: string }): string =>
  `${COLOUR_CODES[colour as ColourCode] ?? 'core'} (${colour})`;

const between = ({ ends: [a, b] }: Core) => `${a} – ${b}`;

const allOf = (cores: readonly Core[]) =>
  cores.map((core) => `${named(core)} ${between(core)}`).join(', ') || 'no core joined';

function moved(was: Core, is: Core): string {
  const stays = was.ends.find((end) => is.ends.includes(end));
  if (!stays) return `moved from ${between(was)} onto ${between(is)}`;
  const other = (core: Core) => core.ends.find((end) => end !== stays)!;
  return `moved from ${other(was)} to ${other(is)}; its other end stays at ${stays}`;
}

const spareIn = ({ definition }: SystemFacts, id: string, { colour }: Core) =>
  definition.cables.find((cable) => cable.id === id)?.spare.includes(colour) ?? false;

const left = (after: SystemFacts, id: string, core: Core) =>
  spareIn(after, id, core) ? '; it is now spare' : '';

const wasSpare = (before: SystemFacts, id: string, core: Core) =>
  spareIn(before, id, core) ? '; it was spare' : '';

function sleeveChange(id: string, was: Core, is: Core): Change {
  const now = is.sleeve ? `now sleeved ${named({ colour: is.sleeve })}` : 'no longer sleeved';
  return { kind: 'marking', words: `Cable ${id}: ${named(was)} ${between(was)} ${now}` };
}

function kindChanges(before: SystemFacts, old: string, after: SystemFacts, id: string): Change[] {
  const was = before.definition.cables.find((cable) => cable.id === old)!;
  const is = after.definition.cables.find((cable) => cable.id === id)!;
  const differing = [
    [was.kind, is.kind, ''],
    [was.mm2, is.mm2, ' mm²'],
    [was.earthMm2, is.earthMm2, ' mm² earth'],
    [was.metres, is.metres, ' m long'],
  ] as const;
  return differing
    .filter(([a, b]) => a !== b)
    .map(([a, b, unit]) => ({
      kind: unit === ' m long' ? 'length' : 'cable',
      words: `Cable ${id}: now ${b ?? 'no separate'}${unit}, was ${a ?? 'no separate'}${unit}`,
    }));
}
