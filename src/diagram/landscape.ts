import type { Item, Network } from '../circuit/index.ts';
import { boxNeed, makeBox } from './box.ts';
import { cellNeed, type Ends, isBare } from './cells.ts';
import { type Columns, columnsOf } from './columns.ts';
import type { Side } from './geometry.ts';
import { headingNeed } from './heading.ts';
import { bestAcross, traceAcross } from './landscape-trials.ts';
import type { Sheet } from './layout.ts';
import { type Lead, leadsOf } from './leads.ts';
import { type Plan, planInside } from './plan.ts';
import { portsOf } from './ports.ts';
import { LANDSCAPE, type Spacing } from './spacing.ts';
import { codeRoom } from './trials.ts';
import { foldUnused } from './unused.ts';

/**
 * Lays a system out across: what feeds and commands left of the wiring centre, what is worked
 * right of it, conductors in the two channels between. Ways of a bare terminal box that
 * nothing is joined to are folded into one line.
 */
export function layOutLandscape(network: Network, spacing: Spacing = LANDSCAPE): Sheet {
  const anyOrder = leadsOf(network, [...network.items.keys()]);
  const joined = new Set(anyOrder.flatMap((lead) => lead.ends));
  const plans = new Map(
    [...network.items].map(([id, item]) => [
      id,
      foldUnused(item, planInside(item, spacing), joined),
    ]),
  );
  const heights = new Map(
    [...network.items].map(([id, item]) => [
      id,
      roughHeight(item, plans.get(id)!, anyOrder, spacing),
    ]),
  );
  const columns = columnsOf(network, (id) => heights.get(id)!);
  const leads = leadsOf(network, [...columns.left, ...columns.middle, ...columns.right]);
  const portOf = portsOf(columns);
  const codesIn = (channel: Side) => {
    const own = leads.filter((lead) =>
      [portOf(lead, 0), portOf(lead, 1)].some((port) => port.channel === channel),
    );
    return Math.ceil(codeRoom(own, spacing));
  };
  const parts = {
    network,
    spacing,
    plans,
    columns,
    leads,
    portOf,
    needs: needsOf(network, plans, columns, spacing),
    codes: { left: codesIn('left'), right: codesIn('right') },
  };
  return traceAcross(bestAcross(parts), parts);
}

/** Height of an item's box with the gap below it, before it is known what leaves on which side. */
function roughHeight(item: Item, plan: Plan, leads: readonly Lead[], spacing: Spacing): number {
  const ends = new Map<string, Ends>();
  for (const { spare, ends: nodes } of leads) {
    if (spare) continue;
    for (const node of nodes) {
      const count = (ends.get(node)?.right ?? 0) + 1;
      ends.set(node, { left: 0, right: count });
    }
  }
  // A bare box is entered from both sides: half of its conductors on either.
  if (isBare(item)) {
    for (const [node, { right }] of ends) ends.set(node, { left: 0, right: Math.ceil(right / 2) });
  }
  const width = Math.max(spacing.box.aim, boxNeed(item, plan, spacing));
  const stand = { corner: { x: 0, y: 0 }, width, face: 'right' } as const;
  const { rect } = makeBox(item, plan, { ends, spares: [] }, stand, spacing);
  return rect.height + spacing.gap;
}

/** Least width of each column, px. */
function needsOf(
  network: Network,
  plans: ReadonlyMap<string, Plan>,
  columns: Columns,
  spacing: Spacing,
) {
  const need = (ids: readonly string[]) =>
    Math.max(
      0,
      ...ids.map((id) => {
        const item = network.items.get(id)!;
        if (!isBare(item)) return Math.ceil(boxNeed(item, plans.get(id)!, spacing));
        const strip = cellNeed(item, columns.faces.get(id)!);
        return Math.ceil(Math.max(headingNeed(item, spacing), strip));
      }),
    );
  return {
    left: need(columns.left),
    middle: need(columns.middle),
    right: need(columns.right),
  };
}
