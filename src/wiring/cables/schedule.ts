import type { Simulation } from '../../circuit/index.ts';
import type { ColourCode, Source } from '../../published/index.ts';
import { type Amps, amps, type Celsius, type Volts, volts } from '../../units/index.ts';
import { type CoreLoad, coreLoads, coresOf } from './core-loads.ts';
import { endsOf, lackingByCable } from './core-need.ts';
import { netsOf } from './nets.ts';
import { limiterBehind, type ProtectiveDevice, protectionOf } from './protection.ts';
import { ratingOf, warmestPlace } from './ratings.ts';
import { waysInAnyMode } from './ways.ts';

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
  readonly cores: readonly CoreLoad[];
  readonly spare: readonly ColourCode[];
  /** Terminals that it ought to carry and has no core for. */
  readonly lacking: readonly string[];
  /** Cores it needs: those in use and those lacking. */
  readonly needed: number;
  /** Cores it has, spare ones counted. */
  readonly there: number;
  /** Whether it carries mains and an extra-low-voltage call side by side. */
  readonly mixed: boolean;
  /** Largest current of any core in any mode, and the mode; null where none flows. */
  readonly amps: Amps;
  readonly worstMode: string | null;
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
   * before the cable or of the limiter behind it; null where no table is known or no mains
   * live reaches the cable.
   */
  readonly protectedWell: boolean | null;
  /** Warmest place in which a flex still carries what its protection lets pass; null for others. */
  readonly warmest: Celsius | null;
  readonly source: Source | null;
}

/** Every cable of a system against its load and its protection. */
export function cableSchedule(
  simulation: Simulation,
  nets = netsOf(simulation.network),
): CableLoad[] {
  const { network } = simulation;
  const ways = waysInAnyMode(simulation);
  const branches = new Map(
    Object.keys(network.system.cables).map((cable) => [cable, coresOf(network, cable)] as const),
  );
  const lacking = lackingByCable(network, nets, branches);
  return [...branches].map(([cable, own]) => {
    const data = network.system.cables[cable]!;
    const cores = coreLoads(simulation, nets, own);
    const live = own.filter((core) => nets.carries(core.from) === 'line');
    const table = ratingOf(data.kind, data.size);
    const worst = cores.toSorted((a, b) => b.amps - a.amps)[0];
    const current = amps(worst?.amps ?? 0);
    const protection = protectionOf(simulation, live, ways);
    const limiter = limiterBehind(simulation, live, ways);
    const fits = ({ rating }: ProtectiveDevice) =>
      table !== null && current <= rating && rating <= table.rating.amps;
    const devices = [protection, limiter].filter((device) => device !== null);
    const limit = amps(Math.min(...devices.map(({ rating }) => rating), Number.POSITIVE_INFINITY));
    const reached = live.some(({ from, to }) => ways.has(from) || ways.has(to));
    const missing = lacking.get(cable) ?? [];
    return {
      cable,
      kind: data.kind,
      size: data.size,
      length: data.length,
      between: endsOf(network, cable),
      cores,
      spare: data.spare,
      lacking: missing,
      needed: cores.length + missing.length,
      there: cores.length + data.spare.length,
      mixed: isMixed(cores),
      amps: current,
      worstMode: worst?.worstMode ?? null,
      capacity: table?.rating.amps ?? null,
      drop: table ? volts((table.rating.millivolts * current * data.length) / 1000) : null,
      protection,
      limiter,
      protectedWell: table && reached ? devices.some(fits) : null,
      warmest:
        table && devices.length > 0 ? warmestPlace(data.kind, table.rating.amps, limit) : null,
      source: table?.source ?? null,
    };
  });
}

const isMixed = (cores: readonly CoreLoad[]): boolean =>
  cores.some(({ carries }) => carries === 'extra-low') &&
  cores.some(({ carries }) => carries === 'line' || carries === 'neutral');
