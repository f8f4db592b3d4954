import {
  type ConductorBranch,
  effectiveAmps,
  type Network,
  type Simulation,
} from '../../circuit/index.ts';
import { type ColourCode, MARKING_COLOURS } from '../../published/index.ts';
import { type Amps, amps } from '../../units/index.ts';
import type { Carries, Nets } from './nets.ts';

/** What a core's marking at its ends is, against what it has to be. */
export interface Marking {
  /** Colour its ends have to show; null where any colour but green-yellow will do. */
  readonly wanted: ColourCode | null;
  /**
   * right: it shows that colour, by itself or by its sleeve;
   * needed: a sleeve is missing and the core passes for something else without it;
   * usual: a sleeve is missing on a core whose own colour is no other function's;
   * forbidden: green-yellow on anything but a protective conductor, or the other way about.
   */
  readonly verdict: 'right' | 'needed' | 'usual' | 'forbidden';
}

/** One core in use: what it carries, the most it carries, and its marking. */
export interface CoreLoad {
  /** `W2.BN`. */
  readonly id: string;
  readonly colour: ColourCode;
  readonly sleeve: ColourCode | null;
  readonly carries: Carries;
  /** Whether it is a live that stands whatever the controls do. */
  readonly permanent: boolean;
  /** Largest current of any mode, and the first mode that has it; null where none flows. */
  readonly amps: Amps;
  readonly worstMode: string | null;
  readonly marking: Marking;
}

/** Current below which a core is said to carry none, A: stray capacitance drives less. */
export const NO_AMPS = 0.0005;

/** The cores of a cable that join two terminals. */
export const coresOf = (network: Network, cable: string): ConductorBranch[] =>
  network.branches.filter(
    (b): b is ConductorBranch =>
      b.kind === 'conductor' &&
      b.cable === cable &&
      !network.system.cables[cable]!.spare.includes(b.colour),
  );

/** Every core of a cable with the most it carries. */
export function coreLoads(
  simulation: Simulation,
  nets: Nets,
  cores: readonly ConductorBranch[],
): CoreLoad[] {
  return cores.map((core) => {
    const sleeve = core.sleeve ?? null;
    const carries = nets.carries(core.from);
    return {
      id: core.id,
      colour: core.colour,
      sleeve,
      carries,
      permanent: carries === 'line' && nets.permanent(core.from),
      ...worstCurrent(simulation, core),
      marking: markingOf(carries, core.colour, sleeve),
    };
  });
}

function worstCurrent({ network, modes }: Simulation, core: ConductorBranch) {
  const index = network.branchIndex.get(core.id)!;
  let worst = { amps: amps(0), worstMode: null as string | null };
  for (const [mode, settled] of modes) {
    const current = effectiveAmps(settled.solution, index);
    if (current > NO_AMPS && current > worst.amps * (1 + 1e-9)) {
      worst = { amps: amps(current), worstMode: mode };
    }
  }
  return worst;
}

/** What marking a core needs, from what it carries and the colours it shows. */
export function markingOf(
  carries: Carries,
  colour: ColourCode,
  sleeve: ColourCode | null,
): Marking {
  const wanted = carries === 'extra-low' ? null : MARKING_COLOURS[carries];
  if ((colour === 'GNYE') !== (carries === 'earth') || (sleeve === 'GNYE' && carries !== 'earth')) {
    return { wanted, verdict: 'forbidden' };
  }
  const shown = sleeve ?? colour;
  if (wanted === null || shown === wanted) return { wanted, verdict: 'right' };
  const misleads = carries === 'neutral' || shown === MARKING_COLOURS.neutral;
  return { wanted, verdict: misleads ? 'needed' : 'usual' };
}
