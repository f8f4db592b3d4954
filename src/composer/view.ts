import { INSTRUMENTS, type Simulation } from '../circuit/index.ts';
import { pathRows } from '../components/system/path-rows.ts';
import { PAIR_NOTES, readingPoints } from '../components/system/reading-points.ts';
import { type SeenLine, seenIn } from '../components/system/seen.ts';
import { byMode, readingPlace, type Variant, variantsOf } from '../components/system/shown.ts';
import { isAtCylinder } from '../components/text/orders.ts';
import type { Composed } from '../compose/index.ts';
import type { ColourCode } from '../published/index.ts';
import type { NamedStandard } from '../standards/index.ts';
import {
  extraLowCaution,
  itemOf,
  livePaths,
  testPairs,
  type WiringTable,
  wayMark,
  wayWords,
  wiringTable,
} from '../wiring/index.ts';
import { capital } from '../words/index.ts';
import { type JudgedBy, judgedBy, type MissedIn, missedIn } from './verdicts.ts';

/** A text with the classes of the modes in which it stands: `m0 m2`, `am`. */
type Said = ReturnType<typeof byMode>[number];

/** A composed arrangement worked out, as the page shows it. Plain data: a worker sends it. */
export interface View {
  readonly title: string;
  readonly summary: string;
  readonly cautions: readonly string[];
  readonly notes: readonly string[];
  /** Whether work on it leads to a hot-water cylinder. */
  readonly atCylinder: boolean;
  readonly verdicts: readonly JudgedBy[];
  /** What is seen otherwise than it must be, mode by mode. */
  readonly missed: readonly MissedIn[];
  readonly modes: readonly ModeView[];
  readonly instruments: readonly string[];
  readonly places: readonly PlaceView[];
  readonly wiring: WiringTable;
  readonly paths: readonly PathView[];
}

export interface ModeView {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
  readonly bring: string;
  readonly seen: readonly SeenLine[];
}

/** One item with what is read at it. */
export interface PlaceView {
  readonly reference: string;
  readonly title: string;
  readonly place: string;
  /** Read on bare terminals, the device off its base. */
  readonly bare: boolean;
  readonly caution: string;
  readonly rows: readonly PairView[];
  /** Why some terminals are not read here. */
  readonly why: readonly string[];
  readonly elsewhere: readonly { readonly point: string; readonly instead: string | null }[];
  readonly unread: readonly string[];
}

export interface PairView {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly note: string;
  readonly values: readonly Variant[];
}

export interface PathView {
  readonly id: string;
  readonly name: string;
  readonly item: string;
  readonly works: readonly Said[];
  readonly rows: readonly PathRowView[];
}

/** One row of a live path. */
export type PathRowView =
  | {
      readonly kind: 'item';
      readonly title: string;
      readonly reference: string;
      readonly place: string;
      /** The part that it came with; null where it came with none. */
      readonly module: string | null;
    }
  | {
      readonly kind: 'terminal';
      readonly point: string;
      readonly against: string | null;
      readonly values: readonly Variant[];
      /** Where the same is read, where this terminal is not. */
      readonly instead: string | null;
    }
  | {
      readonly kind: 'part' | 'load';
      readonly name: string;
      readonly states: readonly Said[];
      readonly open: string;
    }
  | {
      readonly kind: 'core';
      readonly cable: string;
      readonly colour: ColourCode;
      readonly sleeve: ColourCode | null;
      readonly length: number;
    }
  | { readonly kind: 'link'; readonly why: string };

/** Everything that the page shows of a simulated arrangement but for its drawing. */
export function viewOf(
  composed: Composed,
  simulation: Simulation,
  standards: readonly NamedStandard[],
): View {
  const { network } = simulation;
  const { system } = composed;
  return {
    title: system.title,
    summary: system.summary,
    cautions: system.cautions,
    notes: system.notes,
    atCylinder: Object.values(system.items).some(({ place }) => isAtCylinder(place)),
    verdicts: judgedBy(simulation, standards),
    missed: missedIn(composed, simulation),
    modes: modesOf(simulation),
    instruments: INSTRUMENTS.map(({ title }) => title),
    places: placesView(simulation),
    wiring: wiringTable(simulation),
    paths: livePaths(simulation).map((path) => ({
      id: path.id,
      name: capital(path.load.element.name ?? path.load.name),
      item: path.load.item,
      works: byMode(simulation, ({ state }) =>
        state.energised.has(path.load.id) ? 'works in this mode' : 'off in this mode',
      ),
      rows: pathRows(simulation, path).map((row): PathRowView => {
        if (row.kind === 'item') {
          const { title, reference, place } = row.item;
          const module = composed.modules.get(reference) ?? null;
          return { kind: 'item', title, reference, place, module };
        }
        if (row.kind === 'core') return { ...row, sleeve: row.sleeve ?? null };
        if (row.kind === 'link') return { kind: 'link', why: row.why ?? '' };
        if (row.kind !== 'terminal') return row;
        const { here, instead } = readingPlace(network, row.point);
        const values =
          here && row.against !== null
            ? variantsOf(simulation, row.point, row.against, path.driven === 'extra-low')
            : [];
        return { ...row, values, instead };
      }),
    })),
  };
}

const modesOf = ({ network, modes }: Simulation): ModeView[] =>
  [...modes].map(([id, settled]) => {
    const { title, summary = '', bring = '' } = network.system.modes[id]!;
    return { id, title, summary, bring, seen: seenIn(network, settled) };
  });

function placesView(simulation: Simulation): PlaceView[] {
  const { network } = simulation;
  const byItem = Map.groupBy(testPairs(network), ({ item }) => item);
  return [...byItem].map(([reference, pairs]) => {
    const { title, place } = network.items.get(reference)!;
    const { reached, elsewhere, unread, bare, why } = readingPoints(network, reference, pairs);
    return {
      reference,
      title,
      place,
      bare,
      caution: extraLowCaution(network, reference),
      rows: reached.map(({ id, from, to, kind }) => ({
        id,
        from,
        to,
        note: PAIR_NOTES[kind] ?? '',
        values: variantsOf(simulation, from, to, kind === 'call'),
      })),
      why,
      elsewhere: elsewhere.map((point) => {
        const { instead } = readingPlace(network, point);
        return {
          point: wayMark(point),
          instead: instead === null ? null : `${wayWords(instead)} (${itemOf(instead)})`,
        };
      }),
      unread: unread.map(wayMark),
    };
  });
}
