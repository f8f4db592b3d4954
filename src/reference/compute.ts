import type { Device, Symptom, System } from '../../schemas/index.ts';
import { buildNetwork, type Network, type Simulation, simulate } from '../circuit/index.ts';
import type { FamilyShares, Signatures } from '../diagnosis/index.ts';
import {
  type CompactSignatures,
  type Order,
  signaturesFrom,
} from '../diagnosis/inference/index.ts';
import { chanceOrder } from '../diagnosis/planning/index.ts';
import {
  type SearchProblem,
  type SearchResult,
  solveSequence,
  walkTree,
} from '../diagnosis/search/index.ts';
import {
  chanceOrderOf,
  ORDERED_HISTORIES,
  orderOf,
  problemOf,
  type Start,
  startsOf,
  type TestSequence,
  testSequence,
} from '../diagnosis/sequences/index.ts';
import { type Drawing, type DrawOptions, drawSystem } from '../diagram/index.ts';
import type { Entry } from '../entries/index.ts';
import { type Learned, learnedSource } from '../field/index.ts';
import type { Source } from '../published/index.ts';
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
import { candidatesFor, type Replacement } from '../wiring/replacement/index.ts';
import {
  bareDevice,
  bareSystem,
  type Kind,
  keptResults,
  type Source as ResultSource,
  type Results,
} from './results/index.ts';

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
  /** What each kept result of it is worked out from. */
  readonly sources: Readonly<Record<Kind, ResultSource>>;
  /** Every fault and what it shows, packed; simulated when first asked for, then kept. */
  readonly compact: CompactSignatures;
  /** The same, unpacked. */
  readonly signatures: Signatures;
  /** Draws it, as `drawSystem` does, from layouts that are kept. */
  readonly draw: (options?: DrawOptions) => Drawing;
  /** Every device that can be offered for every item; worked out when first asked for, then kept. */
  readonly replacements: readonly Replacement[];
  /**
   * What a test sequence may start from where it worked until now, first nothing looked at; kept
   * like signatures.
   */
  readonly starts: readonly Start[];
  /** One for each start, in the same order; searched for when first asked for, then kept. */
  readonly sequences: readonly TestSequence[];
  /** The same where somebody has worked on it since. */
  readonly startsSinceWork: readonly Start[];
  readonly sequencesSinceWork: readonly TestSequence[];
  /** All of these packed for a phone. */
  readonly orders: readonly Order[];
  /** How often a firm meets each family; absent where the table's own shares hold. */
  readonly families?: FamilyShares;
  /** Where these come from. */
  readonly familiesSource?: Source;
}

/** How often a firm's visits met each family, and each system as it is with our own shares. */
export interface LearnedShares extends Pick<Learned, 'families' | 'visits'> {
  readonly before: (system: string) => ComputedSystem;
}

/** What a system is computed with beside its own entry and devices. */
export interface Means {
  /** By entry id. */
  readonly symptoms: ReadonlyMap<string, Pick<Symptom, 'title' | 'complaint' | 'shows'>>;
  readonly solve: (problem: SearchProblem, start: Start) => SearchResult;
  readonly results: Results;
  /** How often a firm's visits met each family; the table's own shares unless given. */
  readonly learned?: LearnedShares | undefined;
}

const alone = (): Means => ({
  symptoms: new Map(),
  solve: (problem) => solveSequence(problem),
  results: keptResults(null),
});

/**
 * Computes all that a system's page shows. Pure: the same entry gives the same result.
 */
export function computeSystem(
  entry: Entry<System>,
  devices: ReadonlyMap<string, Device>,
  { symptoms, solve, results, learned }: Means = alone(),
): ComputedSystem {
  const families = learned?.families;
  const network = buildNetwork(entry.id, entry.data, devices);
  const simulation = simulate(network);
  const pairs = testPairs(network);
  const sources = sourcesOf(network, devices);
  const compact = once(() => results.of('signatures', sources.signatures));
  const signatures = once(() => signaturesFrom(compact(), simulation, pairs, families));
  const solveHere = learned ? noWorseThan(() => learned.before(entry.id), solve) : solve;
  const [untilNow, sinceWork] = ORDERED_HISTORIES.map((history) => {
    const starts = once(() => startsOf(symptoms, network, signatures(), history));
    const sequences = once(() =>
      starts().map((start) => testSequence(simulation, signatures(), start, solveHere)),
    );
    return { starts, sequences };
  });
  const orders = once(() => {
    const { tests } = compact();
    const { sound } = signatures();
    return [
      ...[untilNow!, sinceWork!].flatMap(({ starts, sequences }) =>
        starts().map((start, i) => orderOf(start, sequences()[i]!, tests)),
      ),
      chanceOrderOf(chanceOrder(network, signatures()), tests, sound),
    ];
  });
  const cables = once(() => cablesAndProtection(simulation));
  // Where none are kept, as in a running server, one variant is laid out when it is asked for.
  const layouts = once(() =>
    results.has('layouts', sources.layouts) ? results.of('layouts', sources.layouts) : {},
  );
  const replacements = once(() =>
    results.of('replacements', sources.replacements).map((kept) => ({ ...kept, before: network })),
  );
  return {
    id: entry.id,
    entry,
    network,
    simulation,
    wiring: wiringTable(simulation),
    paths: livePaths(simulation),
    readings: readingsGrid(simulation, pairs),
    get cables() {
      return cables();
    },
    sources,
    ...(learned ? { families: learned.families, familiesSource: learnedSource(learned) } : {}),
    get compact() {
      return compact();
    },
    get signatures() {
      return signatures();
    },
    draw: (options = {}) => drawSystem(simulation, { ...options, layouts: layouts() }),
    get replacements() {
      return replacements();
    },
    get starts() {
      return untilNow!.starts();
    },
    get sequences() {
      return untilNow!.sequences();
    },
    get startsSinceWork() {
      return sinceWork!.starts();
    },
    get sequencesSinceWork() {
      return sinceWork!.sequences();
    },
    get orders() {
      return orders();
    },
  };
}

/** Share of the minutes by which a sum may differ for the order of its terms. */
const ROUNDING = 1e-9;

/**
 * Solves with learned shares. Where the search has stopped short of the best, the order that our
 * own shares give may take less time: it is then kept, so that counting visits makes none slower.
 */
function noWorseThan(ours: () => ComputedSystem, solve: Means['solve']): Means['solve'] {
  return (problem, start) => {
    const found = solve(problem, start);
    if (found.proven) return found;
    const { network, signatures, starts, startsSinceWork } = ours();
    const before = [...starts, ...startsSinceWork].find(
      ({ id, history }) => id === start.id && history === start.history,
    );
    if (!before) return found;
    const { tree } = solve(problemOf(network, signatures, before).problem, before);
    const { minutes } = walkTree(problem, tree);
    return minutes < found.minutes * (1 - ROUNDING)
      ? { ...found, tree, minutes, gap: 1 - found.lowerBound / minutes }
      : found;
  };
}

/** What is worked out when first asked for, then kept. */
function once<T extends object>(make: () => T): () => T {
  let made: T | undefined;
  return () => (made ??= make());
}

/** What the kept results of a system are worked out from: no more than they use. */
function sourcesOf(
  network: Network,
  devices: ReadonlyMap<string, Device>,
): Record<Kind, ResultSource> {
  const { id, items } = network;
  const system = bareSystem(network.system);
  const own = new Set(Object.values(system.items).map(({ device }) => device));
  const offered = new Set(
    [...items.keys()].flatMap((item) => candidatesFor(network, item, devices)),
  );
  const all = [...devices];
  return {
    signatures: {
      id,
      system,
      devices: Object.fromEntries(
        all.flatMap(([name, device]) => (own.has(name) ? [[name, bareDevice(device)]] : [])),
      ),
    },
    // Items are headed by what their devices are called.
    layouts: { id, system, devices: Object.fromEntries(all.filter(([name]) => own.has(name))) },
    replacements: {
      id,
      system,
      devices: Object.fromEntries(all.filter(([name]) => own.has(name) || offered.has(name))),
    },
  };
}
