import { ISOLATED } from '../../../schemas/index.ts';
import { type Network, nodeOf, resistanceBetween, type Simulation } from '../../circuit/index.ts';
import { INSULATION_LIMITS } from '../../published/index.ts';
import type { TestPair } from '../../wiring/index.ts';
import type { Test } from './kinds.ts';

/**
 * Every test a system allows. Live readings are taken in every mode an engineer can bring
 * about with the supply on; dead ones only where the isolator makes the sound system dead.
 */
export function testsOf(simulation: Simulation, pairs: readonly TestPair[]): Test[] {
  const { network, modes } = simulation;
  const usable = [...modes.keys()].filter((mode) => network.system.modes[mode]!.testable);
  const energised = usable.filter((mode) => mode !== ISOLATED);
  const outcomes = [...network.items].flatMap(([item, { device }]) =>
    Object.keys(device.outcomes).map((name) => `${item}.${name}`),
  );
  return [
    ...energised.flatMap((mode) =>
      outcomes.map((outcome) => ({
        kind: 'look' as const,
        id: `look:${outcome}@${mode}`,
        mode,
        outcome,
      })),
    ),
    ...energised.flatMap((mode) =>
      pairs.map((pair) => ({ kind: 'live' as const, id: `live:${pair.id}@${mode}`, mode, pair })),
    ),
    ...pairs
      .filter((pair) => deadWhenIsolated(simulation, pair))
      .map((pair) => ({ kind: 'dead' as const, id: `dead:${pair.id}`, mode: ISOLATED, pair })),
    ...network.branches.flatMap((b) =>
      b.kind === 'element' && b.element.kind === 'fuse'
        ? [
            {
              kind: 'fuse' as const,
              id: `fuse:${b.id}`,
              mode: ISOLATED,
              item: b.item,
              branch: b.id,
            },
          ]
        : [],
    ),
  ];
}

/** Resistance above which two points count as separated, ohms: the insulation limit. */
const SEPARATED_OHMS = INSULATION_LIMITS.mains.megohms * 1e6;

function deadWhenIsolated({ network, modes }: Simulation, pair: TestPair): boolean {
  const isolated = modes.get(ISOLATED);
  if (!isolated || pair.kind === 'call' || pair.kind === 'call to earth') return false;
  const separated = (point: string) =>
    nodeOf(network, point).terminal?.carries === 'earth' ||
    supplyPoints(network).every(
      (supply) => resistanceBetween(isolated.solution, point, supply) > SEPARATED_OHMS,
    );
  return separated(pair.from) && separated(pair.to);
}

/** The supply's own line and neutral. */
function supplyPoints(network: Network): string[] {
  return network.branches.flatMap((b) =>
    b.kind === 'supply' && !b.id.endsWith('earth') ? [network.nodes[b.from]!.id] : [],
  );
}
