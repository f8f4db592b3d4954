import { namesIn } from '../../../schemas/index.ts';
import type { ConductorBranch, ElementBranch, Network } from '../../circuit/index.ts';
import { itemOf } from '../points.ts';
import { type Nets, onlyJoins } from './nets.ts';

/**
 * Terminals that a cable ought to carry and does not, by cable: those of equipment fed by
 * that cable alone which are joined to nothing beyond it. The cable passes a terminal box
 * that it shares with one other cable, so a shortage is found on both.
 */
export function lackingByCable(
  network: Network,
  nets: Nets,
  cores: ReadonlyMap<string, readonly ConductorBranch[]>,
): ReadonlyMap<string, readonly string[]> {
  const cables = cablesByItem(network);
  const lacking = new Map<string, string[]>([...cores.keys()].map((cable) => [cable, []]));
  for (const [item, own] of cables) {
    if (own.length !== 1 || onlyJoins(network, item)) continue;
    const points = unjoined(network, nets, item);
    for (const cable of alongFrom(network, cables, item)) {
      const own = cores.get(cable) ?? [];
      const without = points.filter((point) => {
        const net = nets.of(network.nodeIndex.get(point)!);
        return !own.some((core) => nets.of(core.from) === net);
      });
      // A core that ends in a box with nothing beyond it is there for one of them.
      lacking.get(cable)?.push(...without.slice(idle(network, own)));
    }
  }
  return lacking;
}

/** How many of some cores end at a way of a box where nothing else is joined. */
function idle(network: Network, cores: readonly ConductorBranch[]): number {
  const joined = (node: number, core: ConductorBranch) =>
    network.branches.some(
      (b) =>
        b !== core &&
        (b.kind === 'conductor' || b.kind === 'wire link') &&
        (b.from === node || b.to === node),
    );
  const ends = (core: ConductorBranch) => [core.from, core.to];
  return cores.filter((core) =>
    ends(core).some((node) => {
      const { item } = network.nodes[node]!;
      return item !== undefined && onlyJoins(network, item) && !joined(node, core);
    }),
  ).length;
}

/** Items at the two ends of a cable; empty where every core of that end lies loose. */
export function endsOf(network: Network, cable: string): readonly [string, string] {
  const cores = Object.values(network.system.cables[cable]!.cores);
  const at = (end: 0 | 1) =>
    cores.map(({ ends }) => itemOf(ends[end])).find((item) => network.items.has(item)) ?? '';
  return [at(0), at(1)];
}

function cablesByItem(network: Network): Map<string, string[]> {
  const cables = new Map<string, string[]>();
  for (const cable of Object.keys(network.system.cables)) {
    for (const item of endsOf(network, cable).filter((end) => end !== '')) {
      cables.set(item, [...(cables.get(item) ?? []), cable]);
    }
  }
  return cables;
}

/** The cable of an item with one cable, and those that go on from it through boxes of two. */
function alongFrom(
  network: Network,
  cables: ReadonlyMap<string, readonly string[]>,
  item: string,
): string[] {
  const along: string[] = [];
  let place = item;
  for (;;) {
    const next = cables.get(place)?.find((cable) => !along.includes(cable));
    if (next === undefined) return along;
    along.push(next);
    const [from, to] = endsOf(network, next);
    place = from === place ? to : from;
    if (!onlyJoins(network, place) || cables.get(place)?.length !== 2) return along;
  }
}

/** Terminals of an item that it needs and that are joined to no other equipment. */
function unjoined(network: Network, nets: Nets, item: string): string[] {
  const { device } = network.items.get(item)!;
  const alone = (name: string) => nets.items(network.nodeIndex.get(`${item}.${name}`)!).size < 2;
  const elements = network.branches.filter(
    (b): b is ElementBranch => b.kind === 'element' && b.item === item,
  );
  return Object.entries(device.terminals)
    .filter(([name, { carries }]) => {
      if (!alone(name)) return false;
      if (carries === 'earth') return device.protection === 'class I';
      const own = elements.filter(({ element }) => element.between.includes(name));
      // A live that a boiler offers need not be taken up; a stat that wants it lacks it at its own end.
      if (own.every(({ element }) => element.kind === 'link')) return false;
      return !own.every((branch) => otherWayIsUsed(branch, name, elements, alone));
    })
    .map(([name]) => `${item}.${name}`);
}

/**
 * Whether a contact is the idle half of a change-over: another contact on the same pole goes
 * by the same rule's names, and its way out is joined.
 */
function otherWayIsUsed(
  { element }: ElementBranch,
  name: string,
  elements: readonly ElementBranch[],
  alone: (name: string) => boolean,
): boolean {
  if (element.kind !== 'contact') return false;
  const pole = element.between.find((end) => end !== name);
  const names = JSON.stringify(namesIn(element.closed));
  return elements.some(({ element: other }) => {
    if (other.kind !== 'contact' || other === element) return false;
    const out = other.between.find((end) => end !== pole);
    if (!other.between.includes(pole!) || out === undefined || out === name) return false;
    return JSON.stringify(namesIn(other.closed)) === names && !alone(out);
  });
}
