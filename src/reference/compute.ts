import type { Device, Symptom, System } from '../../schemas/index.ts';
import { buildNetwork, type Network, type Simulation, simulate } from '../circuit/index.ts';
import { type Signatures, signaturesOf } from '../diagnosis/index.ts';
import { type SearchProblem, type SearchResult, solveSequence } from '../diagnosis/search/index.ts';
import {
  type Start,
  startsOf,
  type TestSequence,
  testSequence,
} from '../diagnosis/sequences/index.ts';
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
  /** Cables and protection; worked out when first asked for, then kept. */
  readonly cables: CablesAndProtection;
  /** Every fault and what it shows; simulated when first asked for, then kept. */
  readonly signatures: Signatures;
  /** Every device that can be offered for every item; worked out when first asked for, then kept. */
  readonly replacements: readonly Replacement[];
  /** What a test sequence may start from, first nothing looked at; kept like signatures. */
  readonly starts: readonly Start[];
  /** One for each start, in the same order; searched for when first asked for, then kept. */
  readonly sequences: readonly TestSequence[];
}

/** What a system's sequences depend on beside its own entry and devices. */
export interface ForSequences {
  /** By entry id. */
  readonly symptoms: ReadonlyMap<string, Pick<Symptom, 'title' | 'shows'>>;
  readonly solve: (problem: SearchProblem) => SearchResult;
}

/**
 * Computes all that a system's page shows. Pure: the same entry gives the same result.
 */
export function computeSystem(
  entry: Entry<System>,
  devices: ReadonlyMap<string, Device>,
  { symptoms, solve }: ForSequences = { symptoms: new Map(), solve: solveSequence },
): ComputedSystem {
  const network = buildNetwork(entry.id, entry.data, devices);
  const simulation = simulate(network);
  const pairs = testPairs(network);
  let cables: CablesAndProtection | undefined;
  let signatures: Signatures | undefined;
  let replacements: readonly Replacement[] | undefined;
  let starts: readonly Start[] | undefined;
  let sequences: readonly TestSequence[] | undefined;
  return {
    id: entry.id,
    entry,
    network,
    simulation,
    wiring: wiringTable(simulation),
    paths: livePaths(simulation),
    readings: readingsGrid(simulation, pairs),
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
    get starts() {
      starts ??= startsOf(symptoms, network, this.signatures);
      return starts;
    },
    get sequences() {
      sequences ??= this.starts.map((start) =>
        testSequence(simulation, this.signatures, start, solve),
      );
      return sequences;
    },
  };
}
