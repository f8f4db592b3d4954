import type {
  Branch,
  ConductorBranch,
  ElementBranch,
  Network,
  Simulation,
} from '../circuit/index.ts';
import {
  BREAKER_LOOP_SOURCE,
  breakerLoopOhms,
  EXTERNAL_LOOP_OHMS,
  FUSE_LOOP_OHMS,
  FUSE_LOOP_SOURCE,
  NOMINAL_VOLTS,
  type Source,
  temperatureFactor,
  VOLTAGE_FACTOR_MIN,
} from '../published/index.ts';
import { type Amps, amps, celsius, type Ohms, ohms } from '../units/index.ts';
import { pointsByItem } from './points.ts';
import { JOIN_OHMS, waysFrom } from './reach.ts';

/** A fuse or circuit-breaker of a system. */
export interface ProtectiveDevice {
  /** Branch id, as in `Q1/fuse`. */
  readonly id: string;
  readonly title: string;
  readonly kind: 'fuse' | 'breaker';
  readonly rating: Amps;
}

/** An earth fault at one item, and whether it clears. */
export interface EarthFault {
  readonly item: string;
  /** Line and protective conductors from the source to the item and back, warm, Ω. */
  readonly loop: Ohms;
  /** Least prospective fault current, A. */
  readonly amps: Amps;
  readonly protection: ProtectiveDevice;
  /** Greatest loop impedance at which it clears in 0.4 s, Ω; null where no table gives it. */
  readonly most: Ohms | null;
  readonly clears: boolean | null;
  readonly source: Source | null;
}

/** Temperature at which a loaded conductor is reckoned, 70 °C insulation. */
const WARM = celsius(70);

/**
 * The fuse or breaker nearest before any of some cores, seen from the supply; null where
 * none stands before them.
 */
export function protectionOf(
  simulation: Simulation,
  cores: readonly ConductorBranch[],
): ProtectiveDevice | null {
  const paths = pathsFromLine(simulation);
  for (const core of cores) {
    for (const node of [core.from, core.to]) {
      const path = paths.get(node);
      if (!path || path.some((b) => cores.includes(b as ConductorBranch))) continue;
      const device = path.findLast(isProtective);
      if (device) return describe(device);
    }
  }
  return null;
}

/**
 * The fuse or breaker behind some cores through which everything they feed is fed, so that
 * it limits their load as well (BS 7671 433.2.2, from memory); null where there is none.
 */
export function limiterBehind(
  simulation: Simulation,
  cores: readonly ConductorBranch[],
): ProtectiveDevice | null {
  const { network } = simulation;
  const loads = network.branches.filter(
    (b) => b.kind === 'element' && ['load', 'motor', 'sensing'].includes(b.element.kind),
  );
  const behind = [...pathsFromLine(simulation)].flatMap(([node, path]) => {
    const at = path.findIndex((b) => cores.includes(b as ConductorBranch));
    return at >= 0 && loads.some((b) => b.from === node || b.to === node)
      ? [path.slice(at + 1)]
      : [];
  });
  const device = behind[0]?.find(
    (b) => isProtective(b) && behind.every((path) => path.includes(b)),
  );
  return device && isProtective(device) ? describe(device) : null;
}

/** An earth fault at every item that has a line and an earth terminal. */
export function earthFaults(simulation: Simulation): EarthFault[] {
  const { network } = simulation;
  const lines = pathsFromLine(simulation);
  const earths = pathsFromEarth(network);
  return pointsByItem(network).flatMap((points) => {
    const line = points.lines.map((p) => lines.get(network.nodeIndex.get(p)!)).find((p) => p);
    const earth = points.earths.map((p) => earths.get(network.nodeIndex.get(p)!)).find((p) => p);
    const device = line?.findLast(isProtective);
    if (!line || !earth || !device) return [];
    const loop = ohms(external(network) + warm(line) + warm(earth));
    const protection = describe(device);
    const limit = limitOf(protection);
    return [
      {
        item: points.item,
        loop,
        amps: amps((VOLTAGE_FACTOR_MIN * NOMINAL_VOLTS) / loop),
        protection,
        most: limit?.most ?? null,
        clears: limit ? loop <= limit.most : null,
        source: limit?.source ?? null,
      },
    ];
  });
}

function limitOf({ kind, rating }: ProtectiveDevice): { most: Ohms; source: Source } | null {
  if (kind === 'breaker') return { most: breakerLoopOhms(rating), source: BREAKER_LOOP_SOURCE };
  const most = FUSE_LOOP_OHMS[rating];
  return most === undefined ? null : { most, source: FUSE_LOOP_SOURCE };
}

type ProtectiveBranch = ElementBranch & {
  readonly element: Extract<ElementBranch['element'], { rating: number }>;
};

const isProtective = (branch: Branch): branch is ProtectiveBranch =>
  branch.kind === 'element' &&
  (branch.element.kind === 'fuse' || branch.element.kind === 'breaker');

const describe = ({ id, item, name, element }: ProtectiveBranch): ProtectiveDevice => ({
  id,
  title: `${item} ${element.name ?? name}`,
  kind: element.kind,
  rating: amps(element.rating),
});

const warm = (path: readonly Branch[]): number =>
  path.reduce((sum, b) => sum + (b.kind === 'conductor' ? b.ohms / temperatureFactor(WARM) : 0), 0);

function external(network: Network): number {
  for (const { device } of network.items.values()) {
    for (const element of Object.values(device.elements)) {
      if (element.kind === 'mains') return EXTERNAL_LOOP_OHMS[element.earthing];
    }
  }
  return 0;
}

/** Branches from the supply's line to every node that is live in some mode. */
function pathsFromLine({ network, modes }: Simulation): Map<number, readonly Branch[]> {
  const start = network.branches.find((b) => b.kind === 'supply' && b.id.endsWith('line'))?.from;
  const joins = new Set<number>();
  for (const { solution } of modes.values()) {
    solution.parts.forEach((part, i) => {
      if (part.ohms < JOIN_OHMS) joins.add(i);
    });
  }
  return start === undefined
    ? new Map()
    : waysFrom(network, start, (b, i) => b.kind !== 'supply' && joins.has(i));
}

function pathsFromEarth(network: Network): Map<number, readonly Branch[]> {
  const start = network.branches.find((b) => b.kind === 'supply' && b.id.endsWith('earth'))?.from;
  const passes = (b: Branch) =>
    b.kind === 'conductor' ||
    b.kind === 'wire link' ||
    (b.kind === 'element' && b.element.kind === 'link');
  return start === undefined ? new Map() : waysFrom(network, start, passes);
}
