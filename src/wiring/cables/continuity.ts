import type { Branch, Network } from '../../circuit/index.ts';
import { type Ohms, ohms } from '../../units/index.ts';
import { pointsByItem } from '../points.ts';
import { type ModeWays, type Ways, waysOfEarth } from './ways.ts';

/** Resistance of the line and of the protective conductor to one item, copper at 20 °C, Ω. */
export interface Resistances {
  readonly r1: Ohms;
  readonly r2: Ohms;
}

/** What a dead test of continuity reads at one item: its R1 + R2. */
export interface Continuity {
  readonly item: string;
  /** Terminals between which it is measured, as in `E1.L` and `E1.E`. */
  readonly line: string;
  readonly earth: string;
  /** Contacts that the line passes and that are closed for the test, by id; those of isolator and supply are not among them. */
  readonly through: readonly string[];
  /** Cores that line and protective conductor pass, from the supply on. */
  readonly lineCores: readonly string[];
  readonly earthCores: readonly string[];
  /** From where the supply enters. */
  readonly origin: Resistances;
  /** From the load terminals of the isolator; null where none lies on both ways. */
  readonly isolator: (Resistances & { readonly item: string }) | null;
}

/**
 * R1 + R2 of every item that has a line and an earth terminal: the cores on the way there, at
 * 20 °C, from their lengths and the table of their class and size; contacts, fuses and terminals
 * add hundredths of an ohm of their own. The line is that of the terminal reached through the
 * fewest contacts, and of those the shortest: a permanent live where there is one.
 * @param modes ways of the line in every mode.
 */
export function continuities(network: Network, modes: readonly ModeWays[]): Continuity[] {
  const earths = waysOfEarth(network);
  return pointsByItem(network).flatMap(({ item, lines, earths: points }) => {
    if (isOf(network, item, 'supply')) return [];
    const wayTo = (ways: Ways, point: string) => ways.get(network.nodeIndex.get(point)!);
    const earth = points.find((point) => wayTo(earths, point));
    if (!earth) return [];
    const back = wayTo(earths, earth)!;
    const [best] = lines
      .flatMap((line) =>
        modes.flatMap(({ lines: ways }) => {
          const way = wayTo(ways, line);
          return way ? [{ line, way, through: contactsOn(network, way) }] : [];
        }),
      )
      .toSorted((a, b) => a.through.length - b.through.length || sum(a.way) - sum(b.way));
    if (!best) return [];
    const { line, way, through } = best;
    const isolator = isolatorOn(network, way);
    const beyond = isolator && [way, back].map((each) => behind(network, isolator, each));
    return [
      {
        item,
        line,
        earth,
        through,
        lineCores: coresOn(way),
        earthCores: coresOn(back),
        origin: { r1: ohms(sum(way)), r2: ohms(sum(back)) },
        isolator:
          isolator && beyond && item !== isolator
            ? { item: isolator, r1: ohms(sum(beyond[0]!)), r2: ohms(sum(beyond[1]!)) }
            : null,
      },
    ];
  });
}

const isOf = ({ items }: Network, item: string, family: string): boolean =>
  items.get(item)?.device.family === family;

const coresOn = (way: readonly Branch[]): string[] =>
  way.flatMap(({ kind, id }) => (kind === 'conductor' ? [id] : []));

const sum = (way: readonly Branch[]): number =>
  way.reduce((total, branch) => total + (branch.kind === 'conductor' ? branch.ohms : 0), 0);

const contactsOn = (network: Network, way: readonly Branch[]): string[] =>
  way.flatMap((branch) =>
    branch.kind === 'element' &&
    branch.element.kind === 'contact' &&
    !isOf(network, branch.item, 'isolation') &&
    !isOf(network, branch.item, 'supply')
      ? [branch.id]
      : [],
  );

/** The last isolator that a way passes. */
function isolatorOn(network: Network, way: readonly Branch[]): string | null {
  const passed = way.flatMap((b) => (b.kind === 'element' ? [b.item] : []));
  return passed.findLast((item) => isOf(network, item, 'isolation')) ?? null;
}

/** What of a way lies behind an item. */
function behind({ nodes }: Network, item: string, way: readonly Branch[]): readonly Branch[] {
  const inside = (branch: Branch) =>
    branch.kind !== 'conductor' && [branch.from, branch.to].every((n) => nodes[n]?.item === item);
  return way.slice(way.findLastIndex(inside) + 1);
}
