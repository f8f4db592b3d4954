import type { Branch, ConductorBranch, ElementBranch, Simulation } from '../../circuit/index.ts';
import type { FuseStandard } from '../../published/index.ts';
import { type Amps, amps } from '../../units/index.ts';
import { waysInAnyMode } from './ways.ts';

/** A fuse or circuit-breaker of a system. */
export interface ProtectiveDevice {
  /** Branch id, as in `Q1/fuse`. */
  readonly id: string;
  /** As in `fuse at Q1`. */
  readonly title: string;
  readonly kind: 'fuse' | 'breaker';
  readonly rating: Amps;
  /** What the fuse link is made to; null for a circuit-breaker. */
  readonly standard: FuseStandard | null;
}

/**
 * The fuse or breaker nearest before any of some cores, seen from the supply; null where
 * none stands before them.
 */
export function protectionOf(
  simulation: Simulation,
  cores: readonly ConductorBranch[],
  ways = waysInAnyMode(simulation),
): ProtectiveDevice | null {
  for (const core of cores) {
    for (const node of [core.from, core.to]) {
      const way = ways.get(node);
      if (!way || way.some((b) => cores.includes(b as ConductorBranch))) continue;
      const device = way.findLast(isProtective);
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
  ways = waysInAnyMode(simulation),
): ProtectiveDevice | null {
  const { network } = simulation;
  const loads = network.branches.filter(
    (b) => b.kind === 'element' && ['load', 'motor', 'sensing'].includes(b.element.kind),
  );
  const behind = [...ways].flatMap(([node, way]) => {
    const at = way.findIndex((b) => cores.includes(b as ConductorBranch));
    return at >= 0 && loads.some((b) => b.from === node || b.to === node)
      ? [way.slice(at + 1)]
      : [];
  });
  const device = behind[0]?.find((b) => isProtective(b) && behind.every((way) => way.includes(b)));
  return device && isProtective(device) ? describe(device) : null;
}

type ProtectiveBranch = ElementBranch & {
  readonly element: Extract<ElementBranch['element'], { rating: number }>;
};

/** Whether a branch is a fuse or a circuit-breaker. */
export const isProtective = (branch: Branch): branch is ProtectiveBranch =>
  branch.kind === 'element' &&
  (branch.element.kind === 'fuse' || branch.element.kind === 'breaker');

/** A fuse or circuit-breaker in words and figures. */
export const describe = ({ id, item, name, element }: ProtectiveBranch): ProtectiveDevice => ({
  id,
  title: `${element.name ?? name} at ${item}`,
  kind: element.kind,
  rating: amps(element.rating),
  standard: element.kind === 'fuse' ? element.standard : null,
});
