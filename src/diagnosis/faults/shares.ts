import {
  FAMILIES,
  type Family,
  type FaultKind,
  HISTORIES,
  type History,
  KINDS,
} from './families.ts';
import type { Draft, Fault } from './fault.ts';

/**
 * The faults of a system with their shares: those of the families that it has, scaled to 1 in
 * each history; a family's share divided among its kinds, a kind's among its instances.
 */
export function withShares(drafts: readonly Draft[]): Fault[] {
  const portions = new Map<FaultKind, number>();
  for (const { class: kind, portion = 1 } of drafts)
    portions.set(kind, (portions.get(kind) ?? 0) + portion);
  const parts = new Map<Family, number>();
  for (const kind of portions.keys()) {
    const { family, part } = KINDS[kind];
    parts.set(family, (parts.get(family) ?? 0) + part);
  }
  const totals = HISTORIES.map((_, i) =>
    [...parts.keys()].reduce((sum, family) => sum + FAMILIES[family].percent[i]!, 0),
  );
  return drafts.map(({ portion = 1, ...draft }) => {
    const { family, part, behaves, source } = KINDS[draft.class];
    const within = ((part / parts.get(family)!) * portion) / portions.get(draft.class)!;
    const share = (i: number) => (FAMILIES[family].percent[i]! / totals[i]!) * within;
    const shares = Object.fromEntries(HISTORIES.map((history, i) => [history, share(i)])) as Record<
      History,
      number
    >;
    return {
      ...draft,
      family,
      shares,
      weight: shares[HISTORIES[0]],
      intermittent: behaves,
      source,
    };
  });
}
