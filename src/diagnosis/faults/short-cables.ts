import type { System } from '../../../schemas/index.ts';
import type { Network, Simulation } from '../../circuit/index.ts';
import { COLOUR_CODES, CORE_SETS, type ColourCode } from '../../published/index.ts';
import { cableWords, type LivePath, livePaths, pointWords } from '../../wiring/index.ts';
import { capital } from '../../words/index.ts';
import { endOf, madeBy } from './edit.ts';
import type { Draft } from './fault.ts';
import { rewire as rewireRepair } from './repairs.ts';

/** Resistance of the link that closes a loop which has no cores to go out on, ohms. */
const LINK_OHMS = 0.005;

/**
 * A cable with fewer cores than the wiring needs, wherever a smaller set on the market
 * leaves some out: three where five belong. What hangs on the lost cores is left off, or,
 * where two of them are a loop, the loop is closed by a link where it begins (common
 * practice, no source). A lead that comes with its device has the cores it has.
 */
export function shortCables(simulation: Simulation): Draft[] {
  const { network } = simulation;
  const { system } = network;
  const paths = livePaths(simulation);
  return Object.entries(system.cables).flatMap(([cable, { kind, cores, spare }]) => {
    if (kind === 'fixed lead' || kind === 'single') return [];
    const due = [...(Object.keys(cores) as ColourCode[]), ...spare];
    const sets = cores.GNYE ? CORE_SETS.earthed : CORE_SETS.plain;
    return Object.values(sets).flatMap((set) => {
      if (set.length >= due.length || !set.every((colour) => due.includes(colour))) return [];
      const lost = due.filter((colour) => cores[colour] && !set.includes(colour));
      // One core lost alone is the same circuit as that core broken.
      return lost.length < 2 ? [] : leftOff(network, cable, set, due.length, lost, paths);
    });
  });
}

function leftOff(
  network: Network,
  cable: string,
  set: readonly ColourCode[],
  due: number,
  colours: readonly ColourCode[],
  paths: readonly LivePath[],
): Draft[] {
  const names = colours.map((colour) => COLOUR_CODES[colour]).join(' or ');
  const called = cableWords(network, cable);
  const title = `${capital(called)} has ${set.length} cores where it needs ${due}: no ${names}`;
  const fault = {
    origin: 'wiring mistake' as const,
    ...rewireRepair(
      `cores ${cable}`,
      `run a ${due}-core cable in place of the ${called} and connect every core.`,
    ),
  };
  const touches = colours.flatMap((colour) => [
    `branch ${cable}.${colour}`,
    ...([0, 1] as const).map((end) => endOf({ cable, colour, end })),
  ]);
  const rewire = (system: System) => without(system, cable, colours);
  const loop = colours.length === 2 ? loopOf(cable, colours, paths) : null;
  return [
    {
      ...fault,
      id: `${cable}:${set.length} cores`,
      title,
      hazard: null,
      class: 'shortCable',
      ...madeBy(network, { rewire, changes: [], touches }),
    },
    ...(loop
      ? [
          {
            ...fault,
            id: `${cable}:${set.length} cores, loop linked`,
            title: `${title}, and ${pointWords(network, loop[0])} is linked to ${pointWords(network, loop[1])}`,
            repair: `${fault.repair} Take the link out.`,
            hazard: 'What switches in the loop no longer stops the equipment.',
            class: 'loopLinked' as const,
            ...madeBy(network, {
              rewire,
              changes: [{ kind: 'join', from: loop[0], to: loop[1], ohms: LINK_OHMS }],
              touches: [...touches, `join ${[...loop].sort().join('|')}`],
            }),
          },
        ]
      : []),
  ];
}

/** Where a path goes out on one core of two and comes back on the other; null where none does. */
function loopOf(
  cable: string,
  colours: readonly ColourCode[],
  paths: readonly LivePath[],
): readonly [string, string] | null {
  const cores = colours.map((colour) => `${cable}.${colour}`);
  for (const { hops } of paths) {
    const out = hops.filter(({ side }) => side === 'out');
    const at = out.flatMap(({ via }, i) => (via.some(({ id }) => cores.includes(id)) ? [i] : []));
    const [first, last] = at;
    if (at.length === 2) return [out[first! - 1]!.point, out[last!]!.point];
  }
  return null;
}

function without(system: System, cable: string, colours: readonly ColourCode[]): System {
  const before = system.cables[cable]!;
  const cores = Object.fromEntries(
    Object.entries(before.cores).filter(([colour]) => !colours.includes(colour as ColourCode)),
  );
  return { ...system, cables: { ...system.cables, [cable]: { ...before, cores } } };
}
