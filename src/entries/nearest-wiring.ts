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

/** One change of wiring after which a system does what its author expects. */
export interface WiringChange {
  /** As an instruction: `exchange black and grey of the thermostat cable W7 at the cylinder stat B2`. */
  readonly words: string;
  /** Other changes as likely that do as well, as instructions. */
  readonly others: readonly string[];
  /** Path of the first of its cores in the entry. */
  readonly path: Path;
}

interface Candidate extends Pick<WiringChange, 'words' | 'path'> {
  readonly system: System;
  /** The lower, the likelier that somebody slipped so. */
  readonly rank: number;
}

/**
 * The smallest change of wiring that makes all expectations of a system hold: two cores of one
 * item exchanged, or one core in another of its terminals; of several the likeliest slip. Null
 * where no single one does.
 */
export function nearestWiring({ network }: Simulation): WiringChange | null {
  const candidates = [...exchanges(network), ...moves(network)];
  for (const [, alike] of [...Map.groupBy(candidates, ({ rank }) => rank)].sort(
    ([a], [b]) => a - b,
  )) {
    const [first, ...others] = alike.flatMap(({ words, path, system }) => {
      const simulation = simulationOf(network, system);
      return simulation && isAsExpected(simulation) ? [{ words, path }] : [];
    });
    if (first) return { ...first, others: others.map(({ words }) => words) };
  }
  return null;
}

/** Simulates a rewired system; null where the engine refuses it. */
function simulationOf(network: Simulation['network'], system: System): Simulation | null {
  try {
    return simulate(rewireNetwork(network, system));
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

const isAsExpected = ({ network: { system }, modes }: Simulation): boolean =>
  Object.entries(system.modes).every(([mode, { expect }]) => {
    const found = modes.get(mode);
    if (!found || found.hunting.length > 0) return false;
    return Object.entries(expect).every(([outcome, so]) => found.outcomes.get(outcome) === so);
  });

type Network = Simulation['network'];
type End = CoreEnd & { readonly point: string };

/** Two cores of one item in each other's place: of one cable first, then of neighbours. */
function exchanges(network: Network): Candidate[] {
  const { system } = network;
  const ends = wired(network);
  return ends.flatMap((a, i) =>
    ends.slice(i + 1).flatMap((b): Candidate[] => {
      const item = itemOf(a.point);
      if (itemOf(b.point) !== item || a.point === b.point) return [];
      const rank = a.cable === b.cable ? 0 : beside(network, a.point, b.point) ? 1 : 3;
      return [
        {
          words: `exchange ${corePair(network, a, b)} ${atItem(network, item)}`,
          path: pathOf(a),
          system: exchangeCoreEnds(system, a, b),
          rank,
        },
      ];
    }),
  );
}

/** One core in another terminal of its item: the one beside its own first. */
function moves(network: Network): Candidate[] {
  return wired(network).flatMap((end) => {
    const item = itemOf(end.point);
    return Object.entries(network.items.get(item)!.device.terminals).flatMap(
      ([name, { carries }]): Candidate[] => {
        const point = `${item}.${name}`;
        if (point === end.point || carries === 'earth') return [];
        return [
          {
            words: `move ${coreWords(network, end)} from ${wayWords(end.point)} to ${wayWords(point)} ${atItem(network, item)}`,
            path: pathOf(end),
            system: moveCoreEnd(network.system, end, point),
            rank: beside(network, end.point, point) ? 2 : 4,
          },
        ];
      },
    );
  });
}

const wired = ({ system }: Network): End[] =>
  coreEnds(system).filter(({ colour }) => colour !== 'GNYE');

const pathOf = ({ cable, colour }: CoreEnd): Path => ['cables', cable, 'cores', colour];

function beside(network: Network, a: string, b: string): boolean {
  const names = Object.keys(network.items.get(itemOf(a))!.device.terminals);
  return Math.abs(names.indexOf(nameOf(a)) - names.indexOf(nameOf(b))) === 1;
}
