import type { Branch, Network, Simulation } from '../../circuit/index.ts';
import {
  BREAKER_LOOP_SOURCE,
  breakerLoopOhms,
  breaksWithin,
  DISCONNECTION_SECONDS,
  type DisconnectionSeconds,
  EXTERNAL_LOOP_OHMS,
  FUSE_LOOP_OHMS,
  FUSE_LOOP_SOURCE,
  NOMINAL_VOLTS,
  type Source,
  temperatureFactor,
  VOLTAGE_FACTOR_MIN,
} from '../../published/index.ts';
import { type Amps, amps, celsius, type Ohms, ohms } from '../../units/index.ts';
import { pointsByItem } from '../points.ts';
import { describe, isProtective, type ProtectiveDevice } from './protection.ts';
import { type ModeWays, type Ways, waysOfEarth } from './ways.ts';

/** An earth fault at one item, and whether it clears. */
export interface EarthFault {
  readonly item: string;
  /** Line terminal at which it is least likely to clear in time. */
  readonly point: string;
  readonly mode: string;
  /** Supply, line and protective conductors to the item, as warm as 70 °C, Ω. */
  readonly loop: Ohms;
  /** Least prospective fault current, A. */
  readonly amps: Amps;
  /** Device that has to clear it: the nearest before it that does, else the nearest whose limit is known. */
  readonly protection: ProtectiveDevice;
  /** Greatest loop impedance at which it clears in 0.4 s, Ω; null where no table gives it. */
  readonly most: Ohms | null;
  /** Time it clears in by that limit, s; null where it does not, or no limit is known. */
  readonly seconds: DisconnectionSeconds | null;
  /** Longest time by the fuse link's time–current zone, s; null where none is given. */
  readonly zoneSeconds: number | null;
  readonly source: Source | null;
}

/** Temperature at which a loaded conductor is reckoned, 70 °C insulation. */
const WARM = celsius(70);

/** An earth fault at every item that has a line and an earth terminal. */
export function earthFaults({ network }: Simulation, modes: readonly ModeWays[]): EarthFault[] {
  const earths = waysOfEarth(network);
  const supply = external(network);
  return pointsByItem(network).flatMap((points) => {
    const earth = points.earths.map((p) => wayTo(network, earths, p)).find((way) => way);
    if (!earth) return [];
    const faults = points.lines.flatMap((point) =>
      modes.flatMap(({ mode, lines }) => {
        const line = wayTo(network, lines, point);
        const cleared = line && clearing(line, supply + warm(line) + warm(earth));
        return cleared ? [{ item: points.item, point, mode, ...cleared }] : [];
      }),
    );
    const worst = faults.toSorted((a, b) => badness(b) - badness(a))[0];
    return worst ? [worst] : [];
  });
}

const wayTo = (network: Network, ways: Ways, point: string): readonly Branch[] | undefined =>
  ways.get(network.nodeIndex.get(point)!);

type Clearing = Omit<EarthFault, 'item' | 'point' | 'mode'>;

function clearing(line: readonly Branch[], loopOhms: number): Clearing | null {
  const loop = ohms(loopOhms);
  const current = amps((VOLTAGE_FACTOR_MIN * NOMINAL_VOLTS) / loop);
  const outcomes = line
    .filter(isProtective)
    .toReversed()
    .map((branch): Clearing => {
      const protection = describe(branch);
      const limits = limitsOf(protection);
      return {
        loop,
        amps: current,
        protection,
        most: limits?.ohms[0.4] ?? null,
        seconds: DISCONNECTION_SECONDS.find((s) => limits && loop <= limits.ohms[s]) ?? null,
        zoneSeconds:
          protection.standard === 'BS 1362' ? breaksWithin(protection.rating, current) : null,
        source: limits?.source ?? null,
      };
    });
  return (
    outcomes.find(({ seconds }) => seconds === 0.4) ??
    outcomes.find(({ seconds }) => seconds !== null) ??
    outcomes.find(({ most }) => most !== null) ??
    outcomes[0] ??
    null
  );
}

/** How far a fault is from clearing in time: its loop as a share of the greatest allowed. */
const badness = ({ loop, most }: EarthFault): number =>
  most === null ? Number.POSITIVE_INFINITY : loop / most;

/** Greatest loop impedance of a device by the time it is to clear in; null where none is known. */
export function limitsOf({ kind, rating, standard }: ProtectiveDevice): {
  readonly ohms: Readonly<Record<DisconnectionSeconds, Ohms>>;
  readonly source: Source;
} | null {
  if (kind === 'breaker') {
    const most = breakerLoopOhms(rating);
    return { ohms: { 0.4: most, 5: most }, source: BREAKER_LOOP_SOURCE };
  }
  const limits = standard === 'BS 1362' ? FUSE_LOOP_OHMS[rating] : undefined;
  return limits ? { ohms: limits, source: FUSE_LOOP_SOURCE } : null;
}

const warm = (way: readonly Branch[]): number =>
  way.reduce((sum, b) => sum + (b.kind === 'conductor' ? b.ohms / temperatureFactor(WARM) : 0), 0);

function external(network: Network): number {
  for (const { device } of network.items.values()) {
    for (const element of Object.values(device.elements)) {
      if (element.kind === 'mains') return EXTERNAL_LOOP_OHMS[element.earthing];
    }
  }
  return 0;
}
