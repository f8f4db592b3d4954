import { effectiveAmps, type Simulation } from '../../circuit/index.ts';
import {
  FUSE_BREAKS,
  FUSE_CARRIES,
  type FuseStandard,
  type Source,
} from '../../published/index.ts';
import { type Amps, amps } from '../../units/index.ts';
import { describe, isProtective, type ProtectiveDevice } from './protection.ts';

/** One fuse link against its load. */
export interface FuseLoad {
  readonly device: ProtectiveDevice & { readonly standard: FuseStandard };
  /** Largest current of any mode, A, and the mode; null where none flows. */
  readonly amps: Amps;
  readonly worstMode: string | null;
  /** Current it must carry for half an hour, A; null where its standard's figure is not given here. */
  readonly carries: Amps | null;
  /** Current it must break, A, with the source of that figure. */
  readonly breaks: Amps;
  readonly source: Source;
  /** First mode whose load breaks it; null where none does. */
  readonly blownIn: string | null;
  /** Whether its load is no more than its rating, and breaks it in no mode. */
  readonly within: boolean;
}

/** Every fuse link of a system against the most it carries. */
export function fuseLoads({ network, modes }: Simulation): FuseLoad[] {
  return network.branches.filter(isProtective).flatMap((branch) => {
    const device = describe(branch);
    const { standard, rating } = device;
    if (standard === null) return [];
    let worst = { amps: amps(0), worstMode: null as string | null };
    for (const [mode, { solution }] of modes) {
      const current = effectiveAmps(solution, network.branchIndex.get(branch.id)!);
      if (current > worst.amps * (1 + 1e-9)) worst = { amps: amps(current), worstMode: mode };
    }
    const blownIn = [...modes].find(([, { state }]) => state.blown.has(branch.id))?.[0] ?? null;
    return [
      {
        device: { ...device, standard },
        ...worst,
        carries: standard === 'BS 1362' ? amps(FUSE_CARRIES.multiple * rating) : null,
        breaks: amps(FUSE_BREAKS[standard].multiple * rating),
        source: FUSE_BREAKS[standard].source,
        blownIn,
        within: blownIn === null && worst.amps <= rating,
      },
    ];
  });
}
