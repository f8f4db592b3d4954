import type { System } from '../../../schemas/index.ts';
import { magnitude, type Network, potential, type Simulation } from '../../circuit/index.ts';
import type { ColourCode } from '../../published/index.ts';
import { conductorOf } from '../../site/index.ts';
import {
  atItem,
  type CoreEnd,
  cableWords,
  coreEnds,
  corePair,
  coreWords,
  exchangeCoreEnds,
  itemOf,
  itemWords,
  livePaths,
  looseCoreEnd,
  moveCoreEnd,
  nameOf,
  partWords,
  pointsOfCore,
  pointWords,
  wayWords,
} from '../../wiring/index.ts';
import { capital } from '../../words/index.ts';
import { type End, screwEnds } from './connections.ts';
import { circuitEdit, endOf, madeBy, rewiring } from './edit.ts';
import type { Draft } from './fault.ts';
import * as repairs from './repairs.ts';
import { shortCables } from './short-cables.ts';

/** Rating of the fuse most often put in where a 3 A one belongs, A (common practice, no source). */
const OVERSIZE_AMPS = 13;

/** The wiring mistakes people make, each applied to this system wherever it can be made. */
export function wiringMistakes(simulation: Simulation): Draft[] {
  const { network } = simulation;
  const ends = screwEnds(network).filter((e) => e.colour !== 'GNYE');
  const fed = switchedFeeds(simulation, ends);
  return [
    ...crossed(network, ends),
    ...wrongTerminals(network, ends, new Set(fed.map(({ id }) => id))),
    ...fed,
    ...linksLeftIn(simulation),
    ...earthsAsLives(network),
    ...otherCircuits(network, ends),
    ...killedBoards(network),
    ...oversizeFuses(network),
    ...shortCables(simulation),
  ];
}

const carries = (network: Network, point: string) =>
  network.nodes[network.nodeIndex.get(point)!]!.terminal!.carries;

/** Whether a conductor is the permanent live: cores and links alone lead from it to a line terminal. */
const isLine = (network: Network, point: string): boolean =>
  [...conductorOf(network, network.nodeIndex.get(point)!)].some(
    (node) => network.nodes[node]!.terminal?.carries === 'line',
  );

/** Part of a mistake made between neighbours beside one made across the box (from memory). */
const ACROSS_THE_BOX = 0.3;

const near = (network: Network, a: string, b: string): boolean => {
  const names = Object.keys(network.items.get(itemOf(a))!.device.terminals);
  return Math.abs(names.indexOf(nameOf(a)) - names.indexOf(nameOf(b))) === 1;
};

/** Two cores of one box in each other's place, of one cable or of two. */
function crossed(network: Network, ends: readonly End[]): Draft[] {
  const lines = new Set(ends.flatMap(({ point }) => (isLine(network, point) ? point : [])));
  return ends.flatMap((a, i) =>
    ends.slice(i + 1).flatMap((b) => {
      const item = itemOf(a.point);
      if (itemOf(b.point) !== item || a.point === b.point) return [];
      const kinds = [carries(network, a.point), carries(network, b.point)];
      const crossesNeutral = kinds.includes('neutral') && !kinds.every((k) => k === 'neutral');
      const reversed = crossesNeutral && (lines.has(a.point) || lines.has(b.point));
      const valves = [a, b].map((end) => valveAt(network, end));
      const between = valves[0] && valves[1] && valves[0] !== valves[1];
      const likely = a.cable === b.cable || near(network, a.point, b.point);
      const pair = corePair(network, a, b);
      return [
        {
          id: `${a.cable}.${a.colour}@${a.end + 1}/${b.cable}.${b.colour}@${b.end + 1}:exchanged`,
          origin: 'wiring mistake' as const,
          title: `${reversed ? 'Polarity reversed' : 'Cores crossed'} ${atItem(network, item)}: ${pair}`,
          ...(repairs.isAtSupply(network, a.point)
            ? repairs.electrician('')
            : repairs.swapBack(network, item, a, b)),
          hazard: reversed
            ? 'Switches and fuses stand in the neutral: parts stay live when switched off.'
            : crossesNeutral
              ? 'A live stands where the neutral belongs: what it feeds may stay live when switched off.'
              : null,
          class: between
            ? ('crossedValves' as const)
            : reversed
              ? ('polarity' as const)
              : ('crossed' as const),
          portion: likely ? 1 : ACROSS_THE_BOX,
          ...madeBy(
            network,
            rewiring([a, b], (system) => exchangeCoreEnds(system, a, b)),
          ),
        },
      ];
    }),
  );
}

/** The valve that a core goes to from where it ends here. */
function valveAt(network: Network, { cable, colour, end }: CoreEnd): string | null {
  const far = itemOf(network.system.cables[cable]!.cores[colour]!.ends[end === 0 ? 1 : 0]);
  return network.items.get(far)?.device.family === 'valve' ? far : null;
}

/**
 * A core in another terminal of its box, unless that makes a feed that is listed as one. One
 * empty terminal is as good as another: only those beside its own are listed.
 */
function wrongTerminals(network: Network, ends: readonly End[], fed: ReadonlySet<string>): Draft[] {
  const used = new Set(coreEnds(network.system).map(({ point }) => point));
  for (const { between } of network.system.links) for (const point of between) used.add(point);
  return ends.flatMap((end) => {
    const item = itemOf(end.point);
    const points = Object.keys(network.items.get(item)!.device.terminals)
      .map((name) => `${item}.${name}`)
      .filter(
        (point) =>
          point !== end.point &&
          carries(network, point) !== 'earth' &&
          !fed.has(fedId(end, point)) &&
          (used.has(point) || near(network, end.point, point)),
      );
    return points.map((point) => ({
      id: `${end.cable}.${end.colour}@${end.end + 1}:in ${point}`,
      origin: 'wiring mistake' as const,
      title: `${capital(coreWords(network, end))} in ${pointWords(network, point)}, should be in ${wayWords(end.point)}`,
      ...(repairs.isAtSupply(network, end.point)
        ? repairs.electrician('')
        : repairs.moveCore(network, end)),
      hazard: null,
      class: 'wrongTerminal' as const,
      portion: near(network, end.point, point) ? 1 : ACROSS_THE_BOX,
      ...madeBy(
        network,
        rewiring([end], (system) => moveCoreEnd(system, end, point)),
      ),
    }));
  });
}

/**
 * The green-yellow core as a live, where a cable to a control has one core too few: the
 * control works and has no earth. Never allowed, sleeving is no cure (BS 7671 514.4.2).
 */
function earthsAsLives(network: Network): Draft[] {
  return Object.entries(network.system.cables).flatMap(([cable, { cores, spare, kind }]) => {
    if (kind === 'fixed lead' || spare.length > 0 || !cores.GNYE) return [];
    const live = (Object.entries(cores) as [ColourCode, { ends: [string, string] }][]).findLast(
      ([colour, { ends }]) =>
        colour !== 'GNYE' && ends.every((p) => !['neutral', 'line'].includes(carries(network, p))),
    );
    if (!live) return [];
    const [colour, { ends }] = live;
    const control = ends.some((point) =>
      ['control', 'receiver'].includes(network.items.get(itemOf(point))!.device.family),
    );
    if (!control) return [];
    const rewire = (system: System): System => {
      const before = system.cables[cable]!;
      const { [colour]: taken, ...rest } = before.cores;
      const made = { ...rest, GNYE: { ...before.cores.GNYE!, ends: taken!.ends } };
      return { ...system, cables: { ...system.cables, [cable]: { ...before, cores: made } } };
    };
    const both = (code: ColourCode) =>
      ([0, 1] as const).map((end) => endOf({ cable, colour: code, end }));
    return [
      {
        id: `${cable}.GNYE:as a live`,
        origin: 'wiring mistake' as const,
        title: `Green-yellow core of the ${cableWords(network, cable)} used as a live`,
        ...repairs.newCable(
          network,
          cable,
          'report it: green-yellow is never a live, whatever its sleeve; disconnect',
        ),
        hazard: 'A live in the colour of an earth: whoever comes next takes it for one.',
        class: 'earthAsLive' as const,
        ...madeBy(network, {
          rewire,
          changes: [],
          touches: [
            `branch ${cable}.${colour}`,
            `branch ${cable}.GNYE`,
            ...both(colour),
            ...both('GNYE'),
          ],
        }),
      },
    ];
  });
}

/** Resistance of the cores by which another circuit comes in, ohms. */
const OTHER_CIRCUIT_OHMS = 0.3;

/**
 * A neutral taken from another circuit, and a live that comes in past the spur: what it feeds
 * stays live with the spur off. Both are found by proving dead.
 */
function otherCircuits(network: Network, ends: readonly End[]): Draft[] {
  const source = network.branches.find((b) => b.kind === 'supply' && b.id.endsWith('line'));
  const neutral = network.branches.find((b) => b.kind === 'supply' && b.id.endsWith('neutral'));
  if (!source || !neutral) return [];
  const [line, bar] = [source, neutral].map((b) => network.nodes[b.from]!.id) as [string, string];
  return ends.flatMap((end): Draft[] => {
    const item = itemOf(end.point);
    const { family } = network.items.get(item)!.device;
    const kind = carries(network, end.point);
    // What a box feeds: the far end lies at equipment, this one where the supply comes from.
    const far = network.system.cables[end.cable]!.cores[end.colour]!.ends[end.end === 0 ? 1 : 0];
    if (kind === 'neutral' && family === 'wiring centre' && !repairs.isAtSupply(network, far)) {
      const loose = `${end.cable}.${end.colour}@${end.end + 1}`;
      return [
        {
          id: `${loose}:borrowed`,
          origin: 'wiring mistake',
          title: `Neutral of the ${cableWords(network, end.cable)} borrowed from another circuit, ${atItem(network, item)}`,
          ...repairs.rewire(
            `borrowed ${end.cable}.${end.colour}`,
            `treat it as live, both ends before touching; take the neutral of the ${cableWords(network, end.cable)} to ${pointWords(network, end.point)}.`,
          ),
          hazard: 'A borrowed neutral goes live when it is disconnected, with the spur off too.',
          class: 'borrowedNeutral',
          ...madeBy(network, {
            rewire: (system) => looseCoreEnd(system, end),
            changes: [{ kind: 'join', from: loose, to: bar, ohms: OTHER_CIRCUIT_OHMS }],
            touches: [endOf(end)],
          }),
        },
      ];
    }
    const first = kind !== 'neutral' && repairs.isAtSupply(network, far);
    if (!first || repairs.isAtSupply(network, end.point)) return [];
    return [
      {
        id: `${end.point}:second supply`,
        origin: 'wiring mistake',
        title: `Second supply at ${pointWords(network, end.point)}: live with the spur off`,
        ...repairs.electrician('It does not isolate: stop.'),
        repairKey: `second supply ${end.point}`,
        hazard: 'The fused spur does not isolate it.',
        class: 'secondSupply',
        ...madeBy(
          network,
          circuitEdit([{ kind: 'join', from: line, to: end.point, ohms: OTHER_CIRCUIT_OHMS }]),
        ),
      },
    ];
  });
}

/** Extra-low-voltage inputs and contacts that mains has reached: dead, and the mains gone again. */
function killedBoards(network: Network): Draft[] {
  return [...network.items].flatMap(([item, { device }]): Draft[] => {
    const call = Object.entries(device.terminals).find(([, t]) => t.voltage === 'extra-low');
    if (!call) return [];
    const at = network.nodeIndex.get(`${item}.${call[0]}`);
    const hit = network.branches.find(
      (b) => b.kind === 'element' && b.item === item && (b.from === at || b.to === at),
    );
    if (!hit) return [];
    const repair =
      device.family === 'boiler'
        ? repairs.handOver(
            item,
            'Supply reaches the boiler; its extra-low-voltage call gives no volts.',
          )
        : repairs.control(network, item);
    return [
      {
        id: `${item}:killed by mains`,
        origin: 'part',
        title: `${capital(itemWords(network, item))}: extra-low-voltage side killed by mains`,
        ...repair,
        repair: `Find how mains came to the pair and put that right first. ${repair.repair}`,
        hazard: 'Mains may still be on extra-low-voltage cores: prove each to earth first.',
        class: 'killedBoard',
        ...madeBy(network, circuitEdit([{ kind: 'open', branch: hit.id }])),
      },
    ];
  });
}

const fedId = ({ cable, colour, end }: CoreEnd, point: string) =>
  `${cable}.${colour}@${end + 1}:fed from ${point}`;

/**
 * A permanent live taken from a terminal of the same item that is live only sometimes: a
 * boiler fed through its own control, a programmer fed by what it switches.
 */
function switchedFeeds({ network, modes }: Simulation, ends: readonly End[]): Draft[] {
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
    // A line terminal at either end, or live whenever anything is: the rest follow a call.
    const isPermanent =
      pointsOfCore(network.system, end).some((point) => carries(network, point) === 'line') ||
      [...states.values()].every((live) => live.every((l, i) => !l || own[i]));
    const points = [...states].flatMap(([point, live]) => {
      const weaker = own.every((l, i) => l || !live[i]) && live.some((l, i) => l !== own[i]);
      return itemOf(point) === itemOf(end.point) && weaker && live.includes(true) ? point : [];
    });
    return points.map((point) => ({
      id: fedId(end, point),
      origin: 'wiring mistake' as const,
      title: `${capital(coreWords(network, end))} in ${pointWords(network, point)}, ${isPermanent ? 'a switched terminal: it needs a permanent live' : `should be in ${wayWords(end.point)}`}`,
      ...(repairs.isAtSupply(network, end.point)
        ? repairs.electrician('')
        : repairs.moveCore(network, end)),
      hazard: null,
      class: 'switchedFeed' as const,
      portion: 1 / points.length,
      ...madeBy(
        network,
        rewiring([end], (system) => moveCoreEnd(system, end, point)),
      ),
    }));
  });
}

/** A link left between the two terminals of an item from which a control's loop goes out. */
function linksLeftIn(simulation: Simulation): Draft[] {
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
    title: `Link left in ${atItem(network, itemOf(from))}, between ${wayWords(from)} and ${wayWords(to)}`,
    ...repairs.rewire(
      `link ${from} ${to}`,
      `take out the link between ${wayWords(from)} and ${wayWords(to)} ${atItem(network, itemOf(from))}.`,
    ),
    hazard: 'The control cannot switch the equipment off.',
    class: 'linkLeftIn',
    ...madeBy(network, circuitEdit([{ kind: 'join', from, to, ohms: 0.005 }])),
  }));
}

const isEquipment = (network: Network, point: string) =>
  ['boiler', 'receiver', 'control'].includes(network.items.get(itemOf(point))!.device.family);

/** A fuse of a higher rating than the entry's. It changes no reading; only a look finds it. */
function oversizeFuses(network: Network): Draft[] {
  return network.branches.flatMap((branch) => {
    if (branch.kind !== 'element' || branch.element.kind !== 'fuse') return [];
    const { rating, standard } = branch.element;
    if (standard !== 'BS 1362' || rating >= OVERSIZE_AMPS) return [];
    return [
      {
        id: `${branch.id}:oversize`,
        origin: 'wiring mistake' as const,
        title: `${capital(itemWords(network, branch.item))}: ${partWords(network, branch)} of ${OVERSIZE_AMPS} A where it should be ${rating} A`,
        ...repairs.setRight(
          `rating ${branch.id}`,
          `Switch off, draw the carrier, fit a ${rating} A fuse, or the rating that the instructions give.`,
          repairs.LOADED,
        ),
        hazard: 'Thin cable and small contacts are without their protection.',
        class: 'wrongFuse' as const,
        ...madeBy(
          network,
          circuitEdit([{ kind: 'rated', branch: branch.id, rating: OVERSIZE_AMPS }]),
        ),
      },
    ];
  });
}
