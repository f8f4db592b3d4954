import type { ConductorBranch, Network } from '../../circuit/index.ts';
import { coreEnds, looseCoreEnd } from '../../wiring/index.ts';
import { circuitEdit, endOf, madeBy, rewiring } from './edit.ts';
import type { Fault } from './fault.ts';
import { WEIGHTS } from './weights.ts';

/** Resistance of a short circuit between cores, and of a leak through wet insulation, ohms. */
const SHORT_OHMS = 0.05;
const LEAK_OHMS = 50e3;

/** Cores broken, out of their terminals, shorted and leaking; links out of theirs. */
export function connectionFaults(network: Network): Fault[] {
  const cores = network.branches.filter((b) => b.kind === 'conductor' && joined(network, b));
  return [
    ...cores.map((core) => broken(network, core as ConductorBranch)),
    ...looseEnds(network),
    ...cores.flatMap((core) =>
      shorts(network, core as ConductorBranch, cores as ConductorBranch[]),
    ),
    ...network.branches.flatMap((b) =>
      b.kind === 'wire link' ? [linkOut(network, b.id, b.item)] : [],
    ),
  ];
}

const joined = (network: Network, { from, to }: { from: number; to: number }) =>
  network.nodes[from]!.terminal !== undefined && network.nodes[to]!.terminal !== undefined;

const remake = (cable: string, colour: string) => ({
  repair: `Isolate, prove dead, remake both ends of ${colour} of ${cable}; replace it if it is broken along its length.`,
  repairKey: `core ${cable}.${colour}`,
});

const earthLost = 'Equipment may be without its protective earth.';

function broken(network: Network, { id, cable, colour }: ConductorBranch): Fault {
  return {
    id: `${id}:broken`,
    origin: 'connection',
    title: `Core ${colour} of ${cable} broken`,
    ...remake(cable, colour),
    hazard: colour === 'GNYE' ? earthLost : null,
    ...WEIGHTS.coreBroken,
    ...madeBy(network, circuitEdit([{ kind: 'open', branch: id }])),
  };
}

function looseEnds(network: Network): Fault[] {
  return coreEnds(network.system).map((at) => ({
    id: `${at.cable}.${at.colour}@${at.end + 1}:loose`,
    origin: 'connection',
    title: `Core ${at.colour} of ${at.cable} out of ${at.point.replace('.', ' ')}`,
    ...remake(at.cable, at.colour),
    hazard:
      at.colour === 'GNYE' ? earthLost : 'The loose core may be live: keep it from everything.',
    ...WEIGHTS.looseEnd,
    ...madeBy(
      network,
      rewiring([at], (system) => looseCoreEnd(system, at)),
    ),
  }));
}

function shorts(
  network: Network,
  core: ConductorBranch,
  cores: readonly ConductorBranch[],
): Fault[] {
  const later = cores.filter((c) => c.cable === core.cable && c.id > core.id);
  const end = (c: ConductorBranch) => network.nodes[c.to]!.id;
  return later.flatMap((other) => {
    if (core.to === other.to) return [];
    const path = (what: string, ohms: number) => ({
      id: `${core.id}-${other.colour}:${what}`,
      origin: 'connection' as const,
      repair: `Isolate, prove dead, find the damage along ${core.cable} and replace the cable.`,
      repairKey: `cable ${core.cable}`,
      ...madeBy(network, {
        changes: [{ kind: 'join', from: end(core), to: end(other), ohms }],
        // The short lies in the cable: it is not one with a core end moved elsewhere.
        touches: [core, other].map((c) => endOf({ cable: c.cable, colour: c.colour, end: 1 })),
      }),
    });
    const pair = `${core.colour} and ${other.colour} of ${core.cable}`;
    const toEarth = core.colour === 'GNYE' || other.colour === 'GNYE';
    return [
      {
        ...path('short', SHORT_OHMS),
        title: `Cores ${pair} touching`,
        hazard: toEarth
          ? 'A fault to earth: earthed metal may rise in voltage until it clears.'
          : null,
        ...WEIGHTS.coreShort,
      },
      ...(toEarth
        ? [
            {
              ...path('leak', LEAK_OHMS),
              title: `Insulation leaking between ${pair}`,
              hazard: 'Leakage to earth: damp or damaged insulation.',
              ...WEIGHTS.coreLeak,
            },
          ]
        : []),
    ];
  });
}

function linkOut(network: Network, id: string, item: string): Fault {
  return {
    id: `${id}:out`,
    origin: 'wiring mistake',
    title: `Link at ${item} left out or loose`,
    repair: `Isolate, prove dead, fit the link at ${item} as the entry shows.`,
    repairKey: `link ${id}`,
    hazard: null,
    ...WEIGHTS.wireLink,
    ...madeBy(network, circuitEdit([{ kind: 'open', branch: id }])),
  };
}
