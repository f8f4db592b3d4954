import type { PlacedBand } from './bands.ts';
import type { Ends } from './cells.ts';
import type { Side } from './geometry.ts';
import type { Lead } from './leads.ts';
import type { Spacing } from './spacing.ts';

/** A conductor's end in a terminal. */
export interface End {
  readonly lead: Lead;
  readonly end: 0 | 1;
  /** Side of the box it leaves from. */
  readonly side: Side;
  /** −1 when the conductor leaves upward, 1 downward. */
  way: -1 | 1;
  /** How far out its upright run is, in any unit; outer runs cross those of inner ones. */
  reach: number;
}

/**
 * Which conductor enters a terminal above which. Those that leave upward are on top; of
 * these the innermost is highest, of those that leave downward the outermost, so that no two
 * of one terminal cross.
 */
export class Slots {
  readonly #ports = new Map<string, End[]>();

  constructor(ends: Iterable<End>) {
    for (const end of ends) {
      const port = `${end.side} ${end.lead.ends[end.end]}`;
      this.#ports.set(port, [...(this.#ports.get(port) ?? []), end]);
    }
    this.#sort();
  }

  /** Conductors' ends in each terminal. */
  get counts(): ReadonlyMap<string, Ends> {
    const counts = new Map<string, Ends>();
    for (const [{ lead, end, side }, { length }] of this.#firsts()) {
      const node = lead.ends[end];
      counts.set(node, { ...(counts.get(node) ?? { left: 0, right: 0 }), [side]: length });
    }
    return counts;
  }

  /** Place of a lead's end among those on its side of its terminal, 0 on top. */
  indexOf(lead: Lead, end: 0 | 1): number {
    for (const side of ['left', 'right'] as const) {
      const ends = this.#ports.get(`${side} ${lead.ends[end]}`) ?? [];
      const at = ends.findIndex((one) => one.lead === lead && one.end === end);
      if (at !== -1) return at;
    }
    return -1;
  }

  /** Sorts the ends anew once it is known which way each leaves and how far out its run is. */
  settle(learn: (end: End) => void): void {
    for (const ends of this.#ports.values()) for (const end of ends) learn(end);
    this.#sort();
  }

  *#firsts(): Generator<readonly [End, readonly End[]]> {
    for (const ends of this.#ports.values()) yield [ends[0]!, ends];
  }

  #sort(): void {
    for (const ends of this.#ports.values()) {
      ends.sort((a, b) => a.way - b.way || -a.way * (a.reach - b.reach));
    }
  }
}

/** The slots of boxes in one column, their conductors all on the right. */
export const slotsInColumn = (leads: readonly Lead[], order: readonly string[]): Slots =>
  new Slots(
    leads.flatMap((lead): End[] => {
      if (lead.spare) return [];
      const reach = order.indexOf(lead.items[1]) - order.indexOf(lead.items[0]);
      return [
        { lead, end: 0, side: 'right', way: 1, reach },
        { lead, end: 1, side: 'right', way: -1, reach },
      ];
    }),
  );

/** Where each lead's upright run has been placed, from the channel's left edge, px. */
export const tracksOf = (
  placed: readonly PlacedBand[],
  { track }: Spacing,
): ReadonlyMap<Lead, number> =>
  new Map(
    placed.flatMap(({ band, x }) => band.runs.map(({ lead }, i) => [lead, x + i * track] as const)),
  );
