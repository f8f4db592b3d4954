import {
  FAMILIES,
  type Family,
  type FaultKind,
  HISTORIES,
  type History,
  KINDS,
} from './families.ts';
import type { Draft, Fault } from './fault.ts';

/** How often each family is met, in the order of `HISTORIES`; only how they stand to one another counts. */
export type FamilyShares = Readonly<Record<Family, readonly [number, number, number]>>;

/** The shares of the table, which hold where no firm has counted. */
export const OUR_SHARES: FamilyShares = Object.fromEntries(
  Object.entries(FAMILIES).map(([family, { percent }]) => [family, percent]),
) as unknown as FamilyShares;

/**
 * The faults of a system with their shares: those of the families that it has, scaled to 1 in
 * each history; a family's share divided among its kinds, a kind's among its instances.
 */
export function withShares(drafts: readonly Draft[], families: FamilyShares = OUR_SHARES): Fault[] {
  const portions = new Map<FaultKind, number>();
  for (const { class: kind, portion = 1 } of drafts)
    portions.set(kind, (portions.get(kind) ?? 0) + portion);
  const parts = new Map<Family, number>();
  for (const kind of portions.keys()) {
    const { family, part } = KINDS[kind];
    parts.set(family, (parts.get(family) ?? 0) + part);
  }
  const totals = HISTORIES.map((_, i) =>
    [...parts.keys()].reduce((sum, family) => sum + families[family][i]!, 0),
  );
  return drafts.map(({ portion = 1, ...draft }) => {
    const { family, part, behaves, source } = KINDS[draft.class];
    const within = ((part / parts.get(family)!) * portion) / portions.get(draft.class)!;
    const share = (i: number) => (families[family][i]! / totals[i]!) * within;
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
