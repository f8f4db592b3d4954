import type { Network, Simulation } from '../../circuit/index.ts';
import type { ColourCode } from '../../published/index.ts';
import { coresOf, dueAt, isBridgeable, itemAtEnd, ratingDue } from '../../wiring/as-found/index.ts';
import { cableWords, itemWords } from '../../wiring/index.ts';
import { capital, terminalMark, terminalWords } from '../../words/index.ts';
import { refOf, type Sheet, sheetOf } from '../sheet.ts';
import { nameOf } from '../words.ts';

/** One core of a cable and where the entry has its ends; `loose` for a spare one. */
export interface SheetCore {
  readonly colour: ColourCode;
  readonly due: readonly [string, string];
}

/** A cable to be traced. */
export interface SheetCable {
  readonly ref: string;
  /** In words, its reference behind: `room stat cable W3`. */
  readonly said: string;
  readonly kind: string;
  /** Items its ends come out at. */
  readonly items: readonly [string, string];
  readonly cores: readonly SheetCore[];
}

/** A contact, fuse or breaker that could be bridged or of another rating. */
export interface SheetPart {
  readonly branch: string;
  readonly item: string;
  readonly name: string;
  /** A; null for a contact. */
  readonly rating: number | null;
  readonly kind: 'contact' | 'fuse' | 'breaker';
}

/** What the page of a circuit as found needs of its system. */
export interface FoundSheet extends Sheet {
  /** Items in words, by reference, which stands behind: `room stat B1`. */
  readonly said: Readonly<Record<string, string>>;
  readonly cables: readonly SheetCable[];
  readonly links: readonly { readonly between: readonly [string, string]; readonly why: string }[];
  readonly parts: readonly SheetPart[];
}

/** What the page needs of a simulated system. */
export function foundSheetOf(simulation: Simulation): FoundSheet {
  const { network } = simulation;
  const { system } = network;
  return {
    ...sheetOf(simulation),
    said: Object.fromEntries(
      [...network.items.keys()].map((item) => [item, itemWords(network, item)]),
    ),
    cables: Object.entries(system.cables).map(([ref, cable]) => ({
      ref,
      said: cableWords(network, ref),
      kind: cable.kind,
      items: [itemAtEnd(system, ref, 0), itemAtEnd(system, ref, 1)],
      cores: coresOf(cable).map((colour) => ({
        colour,
        due: [
          dueAt(system, { cable: ref, colour, end: 0 }),
          dueAt(system, { cable: ref, colour, end: 1 }),
        ],
      })),
    })),
    links: system.links.map(({ between, why }) => ({ between, why: why ?? '' })),
    parts: partsOf(network),
  };
}

/** A terminal in words: `SL at the boiler E1`. */
export const pointWords = ({ said }: FoundSheet, point: string): string =>
  `${terminalWords(nameOf(point))} at the ${said[refOf(point)]}`;

/** Every terminal to choose from, by item. */
export const terminalChoices = ({ items, said }: FoundSheet) =>
  items
    .filter(({ points }) => points.length > 0)
    .map(({ ref, points }) => ({
      ref,
      label: capital(said[ref]!),
      options: points.map(({ id }) => ({ value: id, text: terminalMark(nameOf(id)) })),
    }));

/** Contacts that somebody gets at from terminals, and every fuse. Inside a boiler nobody does. */
function partsOf(network: Network): SheetPart[] {
  return network.branches.flatMap((b): SheetPart[] => {
    if (b.kind !== 'element' || !isBridgeable(network, b.id)) return [];
    const { kind } = b.element;
    const { family } = network.items.get(b.item)!.device;
    const atTerminals = [b.from, b.to].every((i) => network.nodes[i]!.terminal);
    const isShown = kind === 'contact' ? atTerminals || family === 'isolation' : true;
    if (!isShown || family === 'boiler' || (family === 'supply' && kind === 'contact')) return [];
    return [
      {
        branch: b.id,
        item: b.item,
        name: b.element.name ?? b.name,
        rating: ratingDue(network, b.id),
        kind: kind === 'fuse' || kind === 'breaker' ? kind : 'contact',
      },
    ];
  });
}
