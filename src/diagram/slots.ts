import type { PlacedBand } from './bands.ts';
import type { Lead } from './leads.ts';
import type { Spacing } from './spacing.ts';

interface End {
  readonly lead: Lead;
  readonly end: 0 | 1;
  /** −1 when the conductor leaves upward, 1 downward. */
  readonly way: -1 | 1;
  /** How far out its upright run is, in any unit; outer runs cross those of inner ones. */
  reach: number;
}

/**
 * Which conductor enters a terminal above which. Those that leave upward are on top; of
 * these the innermost is highest, of those that leave downward the outermost, so that no two
 * of one terminal cross.
 */
export class Slots {
  readonly #terminals = new Map<string, End[]>();

  constructor(leads: readonly Lead[], order: readonly string[]) {
    for (const lead of leads) {
      if (lead.spare) continue;
      const distance = order.indexOf(lead.items[1]) - order.indexOf(lead.items[0]);
      this.#add(lead, 0, 1, distance);
      this.#add(lead, 1, -1, distance);
    }
    this.#sort();
  }

  /** Conductors' ends in each terminal. */
  get counts(): ReadonlyMap<string, number> {
    return new Map([...this.#terminals].map(([node, ends]) => [node, ends.length]));
  }

  /** Place of a lead's end in its terminal, 0 on top. */
  indexOf(lead: Lead, end: 0 | 1): number {
    const ends = this.#terminals.get(lead.ends[end]) ?? [];
    return ends.findIndex((one) => one.lead === lead && one.end === end);
  }

  /** Sorts the ends anew by where their runs have been placed. */
  settle(placed: readonly PlacedBand[], { track }: Spacing): void {
    const reach = new Map(
      placed.flatMap(({ band, x }) => band.runs.map(({ lead }, i) => [lead, x + i * track])),
    );
    for (const ends of this.#terminals.values()) {
      for (const end of ends) end.reach = reach.get(end.lead) ?? end.reach;
    }
    this.#sort();
  }

  #add(lead: Lead, end: 0 | 1, way: -1 | 1, reach: number): void {
    const node = lead.ends[end];
    this.#terminals.set(node, [...(this.#terminals.get(node) ?? []), { lead, end, way, reach }]);
  }

  #sort(): void {
    for (const ends of this.#terminals.values()) {
      ends.sort((a, b) => a.way - b.way || -a.way * (a.reach - b.reach));
    }
  }
}
