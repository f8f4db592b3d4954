import {
  type Branch,
  type ConductorBranch,
  effectiveAmps,
  type Network,
  type Simulation,
} from '../circuit/index.ts';
import {
  type CableRating,
  FLEX_RATINGS,
  FLEX_SOURCE,
  type Source,
  TWIN_AND_EARTH_RATINGS,
  TWIN_AND_EARTH_SOURCE,
} from '../published/index.ts';
import { type Amps, amps, type Volts, volts } from '../units/index.ts';
import { itemOf } from './points.ts';
import { limiterBehind, type ProtectiveDevice, protectionOf } from './protection.ts';

/** One cable against what it has to do. */
export interface CableLoad {
  /** `W2`. */
  readonly cable: string;
  readonly kind: string;
  /** Cross-section, mm². */
  readonly size: number;
  /** Length, m. */
  readonly length: number;
  /** Items its cores run between. */
  readonly between: readonly [string, string];
  /** Cores the wiring uses. */
  readonly needed: number;
  /** Cores it has, spare ones counted. */
  readonly there: number;
  /** Largest current of any core in any mode, and the mode. */
  readonly amps: Amps;
  readonly worstMode: string;
  /** Capacity of its size and kind; null where no table here gives it. */
  readonly capacity: Amps | null;
  /** Volts its line and return drop together at that current; null as above. */
  readonly drop: Volts | null;
  /** The fuse or breaker that stands before it; null where none does. */
  readonly protection: ProtectiveDevice | null;
  /** A fuse behind the cable that limits all it feeds; null where none does. */
  readonly limiter: ProtectiveDevice | null;
  /**
   * Whether current ≤ rating ≤ capacity (BS 7671 433.1.1, from memory), of the protection
   * before the cable or of the limiter behind it; null where no table or device is known.
   */
  readonly protectedWell: boolean | null;
  readonly source: Source | null;
}

/** Every cable of a system against its load and its protection. */
export function cableSchedule(simulation: Simulation): CableLoad[] {
  const { network } = simulation;
  return Object.entries(network.system.cables).map(([cable, data]) => {
    const cores = conductorsOf(network, cable);
    const worst = worstCurrent(simulation, cores);
    const table = ratingOf(data.kind, data.size);
    const protection = protectionOf(simulation, cores);
    const limiter = limiterBehind(simulation, cores);
    const fits = ({ rating }: ProtectiveDevice) =>
      table !== null && worst.amps <= rating && rating <= table.rating.amps;
    const devices = [protection, limiter].filter((d) => d !== null);
    const ends = Object.values(data.cores)[0]?.ends ?? ['', ''];
    return {
      cable,
      kind: data.kind,
      size: data.size,
      length: data.length,
      between: [itemOf(ends[0]), itemOf(ends[1])] as const,
      needed: Object.keys(data.cores).length,
      there: Object.keys(data.cores).length + data.spare.length,
      amps: worst.amps,
      worstMode: worst.mode,
      capacity: table?.rating.amps ?? null,
      drop: table ? volts((table.rating.millivolts * worst.amps * data.length) / 1000) : null,
      protection,
      limiter,
      protectedWell: table && devices.length > 0 ? devices.some(fits) : null,
      source: table?.source ?? null,
    };
  });
}

const conductorsOf = (network: Network, cable: string): ConductorBranch[] =>
  network.branches.filter(
    (b: Branch): b is ConductorBranch => b.kind === 'conductor' && b.cable === cable,
  );

function worstCurrent(
  { network, modes }: Simulation,
  cores: readonly ConductorBranch[],
): { amps: Amps; mode: string } {
  let worst = { amps: amps(0), mode: '' };
  for (const [mode, settled] of modes) {
    for (const core of cores) {
      const current = effectiveAmps(settled.solution, network.branchIndex.get(core.id)!);
      if (current > worst.amps) worst = { amps: amps(current), mode };
    }
  }
  return worst;
}

/** Capacity and volt drop of a size and kind of cable, with the table they come from. */
export function ratingOf(
  kind: string,
  size: number,
): { rating: CableRating; source: Source } | null {
  const tables: Record<string, [Readonly<Record<number, CableRating>>, Source]> = {
    flex: [FLEX_RATINGS, FLEX_SOURCE],
    'fixed lead': [FLEX_RATINGS, FLEX_SOURCE],
    'twin and earth': [TWIN_AND_EARTH_RATINGS, TWIN_AND_EARTH_SOURCE],
  };
  const found = tables[kind];
  const rating = found?.[0][size];
  return found && rating ? { rating, source: found[1] } : null;
}
