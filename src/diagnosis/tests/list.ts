import { ISOLATED } from '../../../schemas/index.ts';
import { type Network, nodeOf, resistanceBetween, type Simulation } from '../../circuit/index.ts';
import { INSULATION_LIMITS } from '../../published/index.ts';
import {
  isSteady,
  type Place,
  placeOfTerminal,
  placesOf,
  readsAt,
  settledAt,
} from '../../site/index.ts';
import { earthPairs, type TestPair } from '../../wiring/index.ts';
import { takesOut } from './act-answer.ts';
import { actsOf } from './acts.ts';
import type { Test } from './kinds.ts';

/**
 * Every test a system allows, where a hand and a probe get at it. Live readings are taken in
 * every mode an engineer can bring about with the supply on and a box open, on the circuit as opening
 * the place leaves it; dead ones only where the isolator makes the sound system dead.
 */
export function testsOf(simulation: Simulation, pairs: readonly TestPair[]): Test[] {
  const { network, modes } = simulation;
  const usable = [...modes.keys()].filter((mode) => network.system.modes[mode]!.testable);
  const energised = usable.filter((mode) => mode !== ISOLATED);
  const outcomes = [...network.items].flatMap(([item, { device }]) =>
    Object.keys(device.outcomes).map((name) => `${item}.${name}`),
  );
  const working = workingMode(simulation);
  const read = pairs.flatMap((pair) => {
    const place = placeOfTerminal(network, pair.from);
    return place?.terminals.includes(pair.to) ? [{ pair, place, reads: readsAt(place) }] : [];
  });
  const earths = earthPairs(network).flatMap((pair) => {
    const place = placeOfTerminal(network, pair.from);
    return place && readsAt(place) !== 'none' ? [{ pair, place }] : [];
  });
  const dead = ({ pair, place }: { pair: TestPair; place: Place }): Test => ({
    kind: 'dead',
    id: `dead:${pair.id}`,
    mode: ISOLATED,
    place: place.id,
    pair,
  });
  return [
    ...energised.flatMap((mode) =>
      outcomes
        .filter((outcome) => mode === working || !isSteady(network, outcome))
        .map((outcome) => ({
          kind: 'look' as const,
          id: `look:${outcome}@${mode}`,
          mode,
          place: null,
          outcome,
        })),
    ),
    ...energised
      .filter((mode) => network.system.modes[mode]!.readings !== 'none')
      .flatMap((mode) =>
        read
          .filter(({ reads }) => reads === 'live and dead')
          .map(({ pair, place }) => ({
            kind: 'live' as const,
            id: `live:${pair.id}@${mode}`,
            mode,
            place: place.id,
            pair,
          })),
      ),
    ...read
      .filter(
        ({ pair, place, reads }) =>
          reads !== 'none' &&
          pair.kind !== 'call' &&
          pair.kind !== 'call to earth' &&
          isParted(simulation, { points: [pair.from, pair.to], place: place.id }),
      )
      .map(dead),
    ...(usable.includes(ISOLATED) ? earths.map(dead) : []),
    ...placesOf(network)
      .filter(({ opening }) => opening.by === 'controls engineer')
      .flatMap(({ id, item, fuses }) =>
        fuses.map((branch) => ({
          kind: 'fuse' as const,
          id: `fuse:${branch}`,
          mode: ISOLATED,
          place: id,
          item,
          branch,
        })),
      ),
    ...actsOf(network).filter(
      (test) => test.act !== 'insulation' || takesOut(test) || isParted(simulation, test),
    ),
  ];
}

/**
 * The mode in which what no mode changes is looked at: the first that an engineer brings about in
 * which a burner fires; the first of all where none does.
 */
export function workingMode({ network, modes }: Simulation): string | undefined {
  const able = [...modes].filter(([id]) => id !== ISOLATED && network.system.modes[id]!.testable);
  const heats = able.find(([, { outcomes }]) =>
    [...outcomes].some(([outcome, seen]) => outcome.endsWith('.burner') && seen === true),
  );
  return (heats ?? able[0])?.[0];
}

/** Resistance above which two points count as separated, ohms: the insulation limit. */
const SEPARATED_OHMS = INSULATION_LIMITS.mains.megohms * 1e6;

/** Whether points are parted from the supply by the isolator, with their place open. */
function isParted(
  simulation: Simulation,
  { points, place }: { readonly points: readonly string[]; readonly place: string },
): boolean {
  const { network, modes } = simulation;
  if (!modes.has(ISOLATED)) return false;
  const { solution } = settledAt(simulation, ISOLATED, place);
  return points.every(
    (point) =>
      nodeOf(network, point).terminal?.carries === 'earth' ||
      supplyPoints(network).every(
        (supply) => resistanceBetween(solution, point, supply) > SEPARATED_OHMS,
      ),
  );
}

/** The supply's own line and neutral. */
function supplyPoints(network: Network): string[] {
  return network.branches.flatMap((b) =>
    b.kind === 'supply' && !b.id.endsWith('earth') ? [network.nodes[b.from]!.id] : [],
  );
}
