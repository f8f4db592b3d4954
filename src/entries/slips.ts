import type { System } from '../../schemas/index.ts';
import { rewireNetwork, type Simulation, simulate } from '../circuit/index.ts';
import {
  atItem,
  type CoreEnd,
  coreEnds,
  corePair,
  coreWords,
  exchangeCoreEnds,
  itemOf,
  moveCoreEnd,
  nameOf,
  wayWords,
} from '../wiring/index.ts';
import type { Path } from './types.ts';

/** A slip of whoever wires: two cores in each other's place, or one in another terminal. */
export interface Slip {
  /** What was done, as an instruction: `exchange black and grey of the thermostat cable W7 at the cylinder stat B2`. */
  readonly words: string;
  /** Path of the first of its cores in the entry. */
  readonly path: Path;
  /** How the system is wired then. */
  readonly system: System;
  /** The lower, the likelier: 0 two cores of one cable, 1 neighbours, 2 a terminal beside, then the rest. */
  readonly rank: number;
  /** Whether two cores of one colour are exchanged whose other ends are at devices of one kind. */
  readonly ofTwins: boolean;
}

/** Every slip at one item of a system, in no order. */
export const slipsOf = ({ network }: Simulation): Slip[] => [
  ...exchanges(network),
  ...moves(network),
];

/** Simulates a system with a slip; null where the engine refuses it. */
export function simulationWith({ network }: Simulation, { system }: Slip): Simulation | null {
  try {
    return simulate(rewireNetwork(network, system));
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** How many of its author's expectations a system does not show; all of a mode in which it hunts. */
export const differences = ({ network: { system }, modes }: Simulation): number =>
  Object.entries(system.modes).reduce((sum, [mode, { expect }]) => {
    const found = modes.get(mode);
    const rests = found && found.hunting.length === 0;
    const differ = Object.entries(expect).filter(
      ([outcome, so]) => !rests || found.outcomes.get(outcome) !== so,
    );
    return sum + differ.length + (rests ? 0 : 1);
  }, 0);

/** Whether a system comes to rest in every mode and shows all that its author expects. */
export const isAsExpected = (simulation: Simulation): boolean => differences(simulation) === 0;

type Network = Simulation['network'];
type End = CoreEnd & { readonly point: string };

/** Two cores of one item in each other's place: of one cable first, then of neighbours. */
function exchanges(network: Network): Slip[] {
  const { system } = network;
  const ends = wired(network);
  return ends.flatMap((a, i) =>
    ends.slice(i + 1).flatMap((b): Slip[] => {
      const item = itemOf(a.point);
      if (itemOf(b.point) !== item || a.point === b.point) return [];
      const rank = a.cable === b.cable ? 0 : beside(network, a.point, b.point) ? 1 : 3;
      return [
        {
          words: `exchange ${corePair(network, a, b)} ${atItem(network, item)}`,
          path: pathOf(a),
          system: exchangeCoreEnds(system, a, b),
          rank,
          ofTwins: areTwins(network, a, b),
        },
      ];
    }),
  );
}

/** One core in another terminal of its item: the one beside its own first. */
function moves(network: Network): Slip[] {
  return wired(network).flatMap((end) => {
    const item = itemOf(end.point);
    return Object.entries(network.items.get(item)!.device.terminals).flatMap(
      ([name, { carries }]): Slip[] => {
        const point = `${item}.${name}`;
        if (point === end.point || carries === 'earth') return [];
        return [
          {
            words: `move ${coreWords(network, end)} from ${wayWords(end.point)} to ${wayWords(point)} ${atItem(network, item)}`,
            path: pathOf(end),
            system: moveCoreEnd(network.system, end, point),
            rank: beside(network, end.point, point) ? 2 : 4,
            ofTwins: false,
          },
        ];
      },
    );
  });
}

const wired = ({ system }: Network): End[] =>
  coreEnds(system).filter(({ colour }) => colour !== 'GNYE');

function areTwins({ system, items }: Network, a: End, b: End): boolean {
  const kindAt = ({ cable, colour, end }: End) => {
    const other = system.cables[cable]?.cores[colour]?.ends[1 - end];
    return other === undefined ? undefined : items.get(itemOf(other))?.device;
  };
  return a.colour === b.colour && a.cable !== b.cable && kindAt(a) === kindAt(b);
}

const pathOf = ({ cable, colour }: CoreEnd): Path => ['cables', cable, 'cores', colour];

function beside(network: Network, a: string, b: string): boolean {
  const names = Object.keys(network.items.get(itemOf(a))!.device.terminals);
  return Math.abs(names.indexOf(nameOf(a)) - names.indexOf(nameOf(b))) === 1;
}
