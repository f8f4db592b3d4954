import type { Device, System } from '../../schemas/index.ts';
import { buildNetwork, type Network, type Simulation, simulate } from '../circuit/index.ts';
import {
  complaintsOf,
  halvingSequence,
  type Sequence,
  type Signatures,
  signaturesOf,
  suspectsOf,
} from '../diagnosis/index.ts';
import type { Entry } from '../entries/index.ts';
import {
  type CablesAndProtection,
  cablesAndProtection,
  type LivePath,
  livePaths,
  type ReadingsGrid,
  readingsGrid,
  testPairs,
  type WiringTable,
  wiringTable,
} from '../wiring/index.ts';
import { candidatesFor, type Replacement, studyReplacement } from '../wiring/replacement/index.ts';

/** A system entry and everything computed from it. */
export interface ComputedSystem {
  readonly id: string;
  readonly entry: Entry<System>;
  readonly network: Network;
  readonly simulation: Simulation;
  readonly wiring: WiringTable;
  readonly paths: readonly LivePath[];
  readonly readings: ReadingsGrid;
  readonly sequences: readonly Sequence[];
  /** Cables and protection; worked out when first asked for, then kept. */
  readonly cables: CablesAndProtection;
  /** Every fault and what it shows; simulated when first asked for, then kept. */
  readonly signatures: Signatures;
  /** Every device that can be offered for every item; worked out when first asked for, then kept. */
  readonly replacements: readonly Replacement[];
}

/** Computes all that a system's page shows. Pure: the same entry gives the same result. */
export function computeSystem(
  entry: Entry<System>,
  devices: ReadonlyMap<string, Device>,
): ComputedSystem {
  const network = buildNetwork(entry.id, entry.data, devices);
  const simulation = simulate(network);
  const pairs = testPairs(network);
  const suspectOf = suspectsOf(simulation);
  let cables: CablesAndProtection | undefined;
  let signatures: Signatures | undefined;
  let replacements: readonly Replacement[] | undefined;
  return {
    id: entry.id,
    entry,
    network,
    simulation,
    wiring: wiringTable(simulation),
    paths: livePaths(simulation),
    readings: readingsGrid(simulation, pairs),
    sequences: complaintsOf(simulation).map((complaint) =>
      halvingSequence(simulation, complaint, pairs, suspectOf),
    ),
    get cables() {
      cables ??= cablesAndProtection(simulation);
      return cables;
    },
    get signatures() {
      signatures ??= signaturesOf(simulation, pairs);
      return signatures;
    },
    get replacements() {
      replacements ??= [...network.items.keys()].flatMap((item) =>
        candidatesFor(network, item, devices).map((id) =>
          studyReplacement(simulation, item, id, devices.get(id)!),
        ),
      );
      return replacements;
    },
  };
}
