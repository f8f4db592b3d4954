import { type Branch, effectiveAmps, type Network, type Simulation } from '../../circuit/index.ts';
import { VOLT_DROP_LIMIT } from '../../published/index.ts';
import { type Amps, type Volts, volts } from '../../units/index.ts';
import { pointsByItem } from '../points.ts';
import { ratingOf } from './ratings.ts';
import type { ModeWays } from './ways.ts';

/** What the cables between the origin and one item lose. */
export interface VoltDrop {
  readonly item: string;
  readonly line: string;
  readonly neutral: string;
  /** Largest drop of any mode, V, and the mode; null where nothing flows. */
  readonly volts: Volts;
  readonly worstMode: string | null;
  /** Whether it is no more than the limit for equipment other than lighting. */
  readonly within: boolean;
}

/**
 * The largest volt drop at every item that has a line and a neutral: for each core on the way
 * there and back, half its table's millivolts per ampere and metre (a table gives line and
 * return together), times its current in the mode and its length. Magnitudes are added, so
 * the sum is never too small.
 */
export function voltDrops({ network }: Simulation, modes: readonly ModeWays[]): VoltDrop[] {
  return pointsByItem(network).flatMap(({ item, lines, neutrals }) => {
    const drops = modes.flatMap((mode) =>
      lines.flatMap((line) => neutrals.flatMap((neutral) => dropAt(network, mode, line, neutral))),
    );
    const worst = drops.toSorted((a, b) => b.volts - a.volts)[0];
    if (!worst) return [];
    const none = worst.volts === 0;
    return [
      {
        item,
        line: worst.line,
        neutral: worst.neutral,
        volts: volts(worst.volts),
        worstMode: none ? null : worst.mode,
        within: worst.volts <= VOLT_DROP_LIMIT.volts,
      },
    ];
  });
}

function dropAt(
  network: Network,
  { mode, settled, lines, neutrals }: ModeWays,
  l: string,
  n: string,
) {
  const there = lines.get(network.nodeIndex.get(l)!);
  const back = neutrals.get(network.nodeIndex.get(n)!);
  if (!there || !back) return [];
  const sum = [...there, ...back].reduce(
    (total, branch) => total + dropOf(network, branch, currentIn(settled, network, branch)),
    0,
  );
  return [{ mode, line: l, neutral: n, volts: sum }];
}

const currentIn = ({ solution }: ModeWays['settled'], network: Network, branch: Branch): Amps =>
  effectiveAmps(solution, network.branchIndex.get(branch.id)!) as Amps;

function dropOf(network: Network, branch: Branch, current: Amps): number {
  if (branch.kind !== 'conductor') return 0;
  const { kind, size, length } = network.system.cables[branch.cable]!;
  const table = ratingOf(kind, size);
  return table ? ((table.rating.millivolts / 2) * current * length) / 1000 : branch.ohms * current;
}
