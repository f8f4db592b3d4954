import type { ConductorBranch, Network } from '../../circuit/index.ts';
import {
  atItem,
  type CoreEnd,
  coreEnds,
  corePair,
  coreWords,
  itemOf,
  looseCoreEnd,
  pointsByItem,
  pointWords,
  wayWords,
} from '../../wiring/index.ts';
import { capital } from '../../words/index.ts';
import { circuitEdit, endOf, madeBy, rewiring } from './edit.ts';
import type { FaultKind } from './families.ts';
import type { Draft, Repair } from './fault.ts';
import { BURNT_OHMS } from './parts.ts';
import * as repairs from './repairs.ts';

/** Resistance of a short between cores, and of a leak through damaged insulation, ohms. */
const SHORT_OHMS = 0.05;
const LEAK_OHMS = 50e3;

/** Resistance of a damp path between two live ways of one box, ohms (from memory). */
const DAMP_OHMS = 10e3;
/**
 * Resistances of a damp path from a live way to earth, ohms. At 230 V a 30 mA device must trip
 * below 7.67 kΩ, may trip up to 15.3 kΩ, must not above (derived: 230 V over IΔn, over IΔn/2).
 */
const DAMP_TO_EARTH_OHMS = { 'must trip': 5e3, 'may trip': 10e3, 'must not trip': 50e3 } as const;

/** Where water gets in (common practice, no source). */
const DAMP_PLACES: readonly string[] = ['wiring centre', 'valve', 'pump', 'isolation'];

export type End = CoreEnd & { readonly point: string };

/**
 * Core ends in screw terminals. The inner ends of a fixed lead are moulded into its valve head
 * or pump: nothing comes loose there that a hand reaches, and nothing is crossed.
 */
export function screwEnds(network: Network): End[] {
  return coreEnds(network.system).filter(
    ({ cable, point }) => !isOwner(network, cable, itemOf(point)),
  );
}

/** Whether a cable is the fixed lead of an item. */
function isOwner(network: Network, cable: string, item: string): boolean {
  const { kind } = network.system.cables[cable]!;
  return (
    kind === 'fixed lead' &&
    ['valve', 'pump', 'sensor'].includes(network.items.get(item)!.device.family)
  );
}

/** Cores broken, out of their terminals, burnt, shorted, leaking; damp in a box; links out. */
export function connectionFaults(network: Network): Draft[] {
  const cores = network.branches.filter(
    (b): b is ConductorBranch => b.kind === 'conductor' && joined(network, b),
  );
  return [
    ...cores.map((core) => broken(network, core)),
    ...screwEnds(network).flatMap((end) => [
      looseEnd(network, end),
      ...(end.colour === 'GNYE' ? [] : [burntJoint(network, end)]),
    ]),
    ...cores.flatMap((core) => shorts(network, core, cores)),
    ...pointsByItem(network).flatMap(({ item }) => damp(network, item)),
    ...network.branches.flatMap((b) =>
      b.kind === 'wire link' ? [linkOut(network, b.id, b.item)] : [],
    ),
  ];
}

const joined = (network: Network, { from, to }: { from: number; to: number }) =>
  network.nodes[from]!.terminal !== undefined && network.nodes[to]!.terminal !== undefined;

const earthLost = 'Equipment may be without its earth.';

const carries = (network: Network, point: string) =>
  network.nodes[network.nodeIndex.get(point)!]!.terminal!.carries;

/** What repairs a core: the electrician where both its ends are behind the spur's faceplate. */
function coreRepair(network: Network, core: ConductorBranch): Repair {
  const ends = [core.from, core.to].map((node) => network.nodes[node]!.id);
  if (ends.every((point) => repairs.isAtSupply(network, point))) return repairs.electrician('');
  const owner = ends.map(itemOf).find((item) => isOwner(network, core.cable, item));
  if (!owner) return repairs.remake(network, core);
  return partOwning(network, owner);
}

/** A fixed lead belongs to its part. */
function partOwning(network: Network, owner: string): Repair {
  const { device } = network.items.get(owner)!;
  if (device.family === 'valve') return repairs.valveHead(network, owner);
  return Object.keys(device.elements).length > 1
    ? repairs.condensatePump(network, owner)
    : repairs.pump(network, owner);
}

function openKind(colour: string, neutral: boolean, otherwise: FaultKind): FaultKind {
  if (colour === 'GNYE') return 'earthOpen';
  return neutral ? 'neutralOpen' : otherwise;
}

function broken(network: Network, core: ConductorBranch): Draft {
  const neutral = [core.from, core.to].some(
    (node) => network.nodes[node]!.terminal!.carries === 'neutral',
  );
  return {
    id: `${core.id}:broken`,
    origin: 'connection',
    title: `${capital(coreWords(network, core))} broken along its length`,
    ...coreRepair(network, core),
    hazard: core.colour === 'GNYE' ? earthLost : null,
    class: openKind(core.colour, neutral, 'coreBroken'),
    portion: neutral || core.colour === 'GNYE' ? 0.3 : 1,
    ...madeBy(network, circuitEdit([{ kind: 'open', branch: core.id }])),
  };
}

function looseEnd(network: Network, at: End): Draft {
  const neutral = carries(network, at.point) === 'neutral';
  return {
    id: `${at.cable}.${at.colour}@${at.end + 1}:loose`,
    origin: 'connection',
    title: `${capital(coreWords(network, at))} loose, pulled out of ${pointWords(network, at.point)}`,
    ...(repairs.isAtSupply(network, at.point)
      ? repairs.electrician('')
      : repairs.remake(network, at)),
    hazard:
      at.colour === 'GNYE' ? earthLost : 'The loose core may be live: keep it from everything.',
    class: openKind(at.colour, neutral, 'looseEnd'),
    ...madeBy(
      network,
      rewiring([at], (system) => looseCoreEnd(system, at)),
    ),
  };
}

function burntJoint(network: Network, at: End): Draft {
  return {
    id: `${at.cable}.${at.colour}@${at.end + 1}:burnt`,
    origin: 'connection',
    title: `Burnt joint: ${coreWords(network, at)} in ${pointWords(network, at.point)}`,
    ...(repairs.isAtSupply(network, at.point)
      ? repairs.electrician('')
      : repairs.remake(network, at)),
    hazard: 'A burnt joint heats under load and blows no fuse: it stays off until it is remade.',
    class: 'burntJoint',
    ...madeBy(network, {
      changes: [{ kind: 'series', branch: `${at.cable}.${at.colour}`, ohms: BURNT_OHMS }],
      touches: [endOf(at), `branch ${at.cable}.${at.colour}`],
    }),
  };
}

function shorts(
  network: Network,
  core: ConductorBranch,
  cores: readonly ConductorBranch[],
): Draft[] {
  const later = cores.filter((c) => c.cable === core.cable && c.id > core.id);
  const end = (c: ConductorBranch) => network.nodes[c.to]!.id;
  return later.flatMap((other) => {
    if (core.to === other.to) return [];
    const ends = [core.from, core.to].map((node) => network.nodes[node]!.id);
    const owner = ends.map(itemOf).find((item) => isOwner(network, core.cable, item));
    const repair = ends.every((point) => repairs.isAtSupply(network, point))
      ? repairs.electrician('')
      : owner
        ? partOwning(network, owner)
        : repairs.newCable(network, core.cable, 'find the damage along');
    const path = (what: string, ohms: number) => ({
      id: `${core.id}-${other.colour}:${what}`,
      origin: 'connection' as const,
      ...repair,
      ...madeBy(network, {
        changes: [{ kind: 'join', from: end(core), to: end(other), ohms }],
        // The short lies in the cable: it is not one with a core end moved elsewhere.
        touches: [core, other].map((c) => endOf({ cable: c.cable, colour: c.colour, end: 1 })),
      }),
    });
    const pair = corePair(network, core, other);
    const toEarth = core.colour === 'GNYE' || other.colour === 'GNYE';
    const neutral = [core, other].some((c) => network.nodes[c.to]!.terminal!.carries === 'neutral');
    return [
      {
        ...path('short', SHORT_OHMS),
        title: `Short between ${pair}`,
        hazard: toEarth
          ? 'A fault to earth: earthed metal may rise in voltage until it clears.'
          : null,
        class: toEarth && neutral ? ('neutralEarth' as const) : ('coreShort' as const),
      },
      ...(toEarth && !neutral
        ? [
            {
              ...path('leak', LEAK_OHMS),
              title: `Leakage between ${pair}`,
              hazard: 'Leakage to earth: damp or damaged insulation.',
              class: 'cableLeak' as const,
            },
          ]
        : []),
    ];
  });
}

/** An item's points without those that the supply comes in at: a leak there is before the spur. */
function downstream(network: Network, item: string) {
  const fromSupply = new Set(
    Object.values(network.system.cables).flatMap(({ cores }) =>
      Object.values(cores).flatMap(({ ends }) =>
        ends.some((end) => network.items.get(itemOf(end))?.device.family === 'supply') ? ends : [],
      ),
    ),
  );
  const points = pointsByItem(network).find((one) => one.item === item)!;
  const own = (all: readonly string[]) => all.filter((point) => !fromSupply.has(point));
  return { lines: own(points.lines), neutrals: own(points.neutrals), earths: own(points.earths) };
}

/**
 * Damp between neighbouring live ways of a box, and from a live way to its earth; at a spur on
 * its load side, behind the faceplate.
 */
function damp(network: Network, item: string): Draft[] {
  const { device } = network.items.get(item)!;
  if (!DAMP_PLACES.includes(device.family)) return [];
  const points = downstream(network, item);
  const earth = points.earths[0];
  const residual = [...network.items.values()].some(({ device: { elements } }) =>
    Object.values(elements).some((e) => e.kind === 'breaker' && e.residual),
  );
  const sizes = residual
    ? (Object.entries(DAMP_TO_EARTH_OHMS) as [keyof typeof DAMP_TO_EARTH_OHMS, number][])
    : ([['may trip', DAMP_TO_EARTH_OHMS['may trip']]] as const);
  const path = (id: string, title: string, from: string, to: string, ohms: number) => ({
    id: `${item}:${id}`,
    origin: 'connection' as const,
    title,
    ...(device.family === 'isolation'
      ? repairs.electrician('Water, or a core pinched behind the faceplate.')
      : repairs.dry(network, item)),
    hazard: 'Water at live terminals: it stays off until it is dry.',
    ...madeBy(network, circuitEdit([{ kind: 'join', from, to, ohms }])),
  });
  const where = atItem(network, item);
  const neighbours = points.lines.flatMap((from, i) => {
    const to = points.lines[i + 1];
    return to ? [[from, to] as const] : [];
  });
  return [
    ...neighbours.map(([from, to]) => ({
      ...path(
        `damp ${from} ${to}`,
        `Damp ${where}, from ${wayWords(from)} to ${wayWords(to)}`,
        from,
        to,
        DAMP_OHMS,
      ),
      class: 'damp' as const,
    })),
    ...(earth
      ? points.lines.flatMap((line) =>
          sizes.map(([trips, ohms]) => ({
            ...path(
              `damp ${line} earth, ${ohms / 1000} kΩ`,
              `Damp ${where}, from ${wayWords(line)} to earth${residual ? `; a 30 mA RCD or RCBO ${trips}` : ''}`,
              line,
              earth,
              ohms,
            ),
            class: 'damp' as const,
            portion: 1 / sizes.length,
          })),
        )
      : []),
    ...(earth && points.neutrals[0]
      ? [
          {
            ...path(
              'neutral to earth',
              `Neutral touching earth ${where}`,
              points.neutrals[0],
              earth,
              SHORT_OHMS,
            ),
            hazard: null,
            class: 'neutralEarth' as const,
          },
        ]
      : []),
  ];
}

function linkOut(network: Network, id: string, item: string): Draft {
  return {
    id: `${id}:out`,
    origin: 'wiring mistake',
    title: `Link missing ${atItem(network, item)}`,
    ...repairs.rewire(
      `link ${id}`,
      `fit the link ${atItem(network, item)}, as the wiring table shows.`,
    ),
    hazard: null,
    class: 'linkOut',
    ...madeBy(network, circuitEdit([{ kind: 'open', branch: id }])),
  };
}
