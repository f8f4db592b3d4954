import { magnitude, type Network, potential, type Simulation } from '../../circuit/index.ts';
import {
  type CoreEnd,
  coreEnds,
  exchangeCoreEnds,
  itemOf,
  livePaths,
  moveCoreEnd,
  nameOf,
} from '../../wiring/index.ts';
import { circuitEdit, madeBy, rewiring } from './edit.ts';
import type { Fault } from './fault.ts';
import { shortCables } from './short-cables.ts';
import { partOf, WEIGHTS } from './weights.ts';

type End = CoreEnd & { readonly point: string };

/** Rating of the fuse most often put in where a 3 A one belongs, A (common practice, no source). */
const OVERSIZE_AMPS = 13;

/** The wiring mistakes people make, each applied to this system wherever it can be made. */
export function wiringMistakes(simulation: Simulation): Fault[] {
  const { network } = simulation;
  const ends = coreEnds(network.system).filter((e) => e.colour !== 'GNYE');
  const fed = switchedFeeds(simulation, ends);
  return [
    ...exchanged(network, ends),
    ...neighbours(network, ends, new Set(fed.map(({ id }) => id))),
    ...fed,
    ...linksLeftIn(simulation),
    ...oversizeFuses(network),
    ...shortCables(simulation),
  ];
}

const spoken = (point: string) => point.replace('.', ' ');
const core = ({ cable, colour }: CoreEnd) => `${colour} of ${cable}`;
const carries = (network: Network, point: string) =>
  network.nodes[network.nodeIndex.get(point)!]!.terminal!.carries;

/** Two cores of one cable, or two cores in neighbouring terminals, in each other's place. */
function exchanged(network: Network, ends: readonly End[]): Fault[] {
  const partners = (end: End) => ends.filter((other) => exchangeable(network, end, other));
  const counts = new Map(ends.map((end) => [end, partners(end).length]));
  return ends.flatMap((a, i) =>
    ends.slice(i + 1).flatMap((b) => {
      if (!exchangeable(network, a, b)) return [];
      // Each end's own share of going astray, divided among those it can be taken for.
      const part = (1 / counts.get(a)! + 1 / counts.get(b)!) / 2;
      const kinds = [carries(network, a.point), carries(network, b.point)];
      const polarity = kinds.includes('neutral') && !kinds.every((k) => k === 'neutral');
      return [
        {
          id: `${a.cable}.${a.colour}@${a.end + 1}/${b.cable}.${b.colour}@${b.end + 1}:exchanged`,
          origin: 'wiring mistake' as const,
          title: `${polarity ? 'Polarity reversed' : 'Cores exchanged'} at ${itemOf(a.point)}: ${core(a)} and ${core(b)}`,
          repair: `Isolate, prove dead, exchange ${core(a)} and ${core(b)} at ${itemOf(a.point)}.`,
          // Exchanged at one end or at the other of one cable: the same exchange mends both.
          repairKey:
            a.cable === b.cable
              ? `exchange ${a.cable} ${a.colour} ${b.colour}`
              : `exchange ${a.point} ${b.point}`,
          hazard: polarity
            ? 'Switches and fuses stand in the neutral: parts stay live when switched off.'
            : null,
          ...partOf(polarity ? WEIGHTS.polarity : WEIGHTS.exchanged, part),
          ...madeBy(
            network,
            rewiring([a, b], (system) => exchangeCoreEnds(system, a, b)),
          ),
        },
      ];
    }),
  );
}

function exchangeable(network: Network, a: End, b: End): boolean {
  if (itemOf(a.point) !== itemOf(b.point) || a.point === b.point) return false;
  return a.cable === b.cable || adjacent(network, a.point, b.point);
}

/** A core in the terminal beside its own, unless that makes a feed that is listed as one. */
function neighbours(network: Network, ends: readonly End[], fed: ReadonlySet<string>): Fault[] {
  return ends.flatMap((end) => {
    const names = Object.keys(network.items.get(itemOf(end.point))!.device.terminals);
    const at = names.indexOf(nameOf(end.point));
    const points = [names[at - 1], names[at + 1]]
      .flatMap((name) => (name === undefined ? [] : `${itemOf(end.point)}.${name}`))
      .filter((point) => carries(network, point) !== 'earth' && !fed.has(fedId(end, point)));
    return points.map((point) => ({
      id: `${end.cable}.${end.colour}@${end.end + 1}:in ${point}`,
      origin: 'wiring mistake' as const,
      title: `Core ${core(end)} in ${spoken(point)} instead of ${nameOf(end.point)}`,
      repair: `Isolate, prove dead, move ${core(end)} to ${spoken(end.point)}.`,
      repairKey: `core ${end.cable}.${end.colour}`,
      hazard: null,
      ...partOf(WEIGHTS.neighbour, 1 / points.length),
      ...madeBy(
        network,
        rewiring([end], (system) => moveCoreEnd(system, end, point)),
      ),
    }));
  });
}

function adjacent(network: Network, a: string, b: string): boolean {
  const names = Object.keys(network.items.get(itemOf(a))!.device.terminals);
  return Math.abs(names.indexOf(nameOf(a)) - names.indexOf(nameOf(b))) === 1;
}

const fedId = ({ cable, colour, end }: CoreEnd, point: string) =>
  `${cable}.${colour}@${end + 1}:fed from ${point}`;

/**
 * A permanent live taken from a terminal of the same item that is live only sometimes: a
 * boiler fed through its own control, a programmer fed by what it switches.
 */
function switchedFeeds({ network, modes }: Simulation, ends: readonly End[]): Fault[] {
  const states = new Map<string, boolean[]>();
  for (const end of ends) {
    if (carries(network, end.point) === 'neutral' || states.has(end.point)) continue;
    const node = network.nodeIndex.get(end.point)!;
    states.set(
      end.point,
      [...modes.values()].map(({ solution }) => magnitude(potential(solution.ac, node)) > 100),
    );
  }
  return ends.flatMap((end) => {
    const own = states.get(end.point);
    if (!own) return [];
    const points = [...states].flatMap(([point, live]) => {
      const weaker = own.every((l, i) => l || !live[i]) && live.some((l, i) => l !== own[i]);
      return itemOf(point) === itemOf(end.point) && weaker && live.includes(true) ? point : [];
    });
    return points.map((point) => ({
      id: fedId(end, point),
      origin: 'wiring mistake' as const,
      title: `Core ${core(end)} fed from ${spoken(point)}, which is live only sometimes`,
      repair: `Isolate, prove dead, move ${core(end)} to ${spoken(end.point)}.`,
      repairKey: `core ${end.cable}.${end.colour}`,
      hazard: null,
      ...partOf(WEIGHTS.switchedFeed, 1 / points.length),
      ...madeBy(
        network,
        rewiring([end], (system) => moveCoreEnd(system, end, point)),
      ),
    }));
  });
}

/** A link left between the two terminals of an item from which a control's loop goes out. */
function linksLeftIn(simulation: Simulation): Fault[] {
  const { network } = simulation;
  const loops = new Map<string, [string, string]>();
  for (const { hops } of livePaths(simulation)) {
    for (const [i, hop] of hops.entries()) {
      const back = hops.findLast(
        (h, j) => h.side === 'out' && j > i + 1 && itemOf(h.point) === itemOf(hop.point),
      );
      if (back && hop.side === 'out' && itemOf(hops[i + 1]!.point) !== itemOf(hop.point)) {
        const pair = [hop.point, back.point] as [string, string];
        if (isEquipment(network, pair[0])) loops.set(pair.join('|'), pair);
      }
    }
  }
  return [...loops.values()].map(([from, to]) => ({
    id: `${from}~${to}:link left in`,
    origin: 'wiring mistake',
    title: `Link left in at ${itemOf(from)} between ${nameOf(from)} and ${nameOf(to)}`,
    repair: `Isolate, prove dead, take the link at ${itemOf(from)} out.`,
    repairKey: `link ${from} ${to}`,
    hazard: 'The control cannot switch the equipment off.',
    ...WEIGHTS.linkLeftIn,
    ...madeBy(network, circuitEdit([{ kind: 'join', from, to, ohms: 0.005 }])),
  }));
}

const isEquipment = (network: Network, point: string) =>
  ['boiler', 'receiver', 'control'].includes(network.items.get(itemOf(point))!.device.family);

/** A fuse of a higher rating than the entry's. It changes no reading; only a look finds it. */
function oversizeFuses(network: Network): Fault[] {
  return network.branches.flatMap((branch) => {
    if (branch.kind !== 'element' || branch.element.kind !== 'fuse') return [];
    const { rating, standard, name } = branch.element;
    if (standard !== 'BS 1362' || rating >= OVERSIZE_AMPS) return [];
    return [
      {
        id: `${branch.id}:oversize`,
        origin: 'wiring mistake' as const,
        title: `${branch.item} ${name ?? branch.name}: ${OVERSIZE_AMPS} A where ${rating} A belongs`,
        repair: `Isolate, prove dead, fit a ${rating} A fuse link.`,
        repairKey: `rating ${branch.id}`,
        hazard: 'Thin cable and small contacts are without their protection.',
        ...WEIGHTS.oversizeFuse,
        ...madeBy(
          network,
          circuitEdit([{ kind: 'rated', branch: branch.id, rating: OVERSIZE_AMPS }]),
        ),
      },
    ];
  });
}
