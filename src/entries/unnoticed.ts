import { conditionsOf, type Network, type Simulation, settleMode } from '../circuit/index.ts';
import { isAsExpected, type Slip, simulationWith, slipsOf } from './slips.ts';

/** Something that an author could expect, and the slips that it would notice. */
export interface Expectation {
  /** Mode of the entry that it would stand in; null for one with conditions of its own. */
  readonly mode: string | null;
  /** Conditions that such a mode sets, as in `E1.tap open`; empty for a mode of the entry. */
  readonly conditions: readonly string[];
  /** ITEM.outcome, and whether it is so in the system as drawn. */
  readonly outcome: string;
  readonly so: boolean;
  /** In words, as instructions. */
  readonly notices: readonly string[];
}

/** Which slips of wiring a system's modes would not notice. */
export interface Unnoticed {
  /** How many likely slips were tried. */
  readonly tried: number;
  readonly noticed: number;
  /** The fewest found that notice what can be noticed, each what notices most of what is left. */
  readonly wanted: readonly Expectation[];
  /** Slips that show in no outcome: only readings, or the eye, find them. */
  readonly silent: readonly string[];
}

/** The least likely slip that is tried: one core in the terminal beside its own. */
const LIKELY = 2;

/**
 * Tries every likely slip of whoever wires a system against what its modes expect, and says what
 * expectation would notice those that pass: in a mode that it has, or in one that sets one or two
 * conditions.
 */
export function unnoticedIn(simulation: Simulation): Unnoticed {
  const { network } = simulation;
  const slips = slipsOf(simulation).filter(({ rank }) => rank <= LIKELY);
  const passed = slips.flatMap((slip) => {
    const then = simulationWith(simulation, slip);
    return then && isAsExpected(then) ? [{ slip, then }] : [];
  });
  const shown = new Map<string, Omit<Expectation, 'notices'> & { readonly by: Set<Slip> }>();
  for (const look of looksAt(network, simulation)) {
    const sound = look.at(simulation);
    for (const { slip, then } of passed) {
      const now = look.at(then);
      for (const [outcome, so] of sound) {
        if (so === 'hunting' || now.get(outcome) === so) continue;
        const { mode, conditions } = look;
        const key = `${mode} ${conditions.join()} ${outcome}`;
        const known = shown.get(key) ?? { mode, conditions, outcome, so, by: new Set() };
        known.by.add(slip);
        shown.set(key, known);
      }
    }
  }
  const wanted: Expectation[] = [];
  const left = new Set([...shown.values()].flatMap(({ by }) => [...by]));
  while (left.size > 0) {
    // Of those that notice as many, what is nearest: a line in a mode that is there, then one condition.
    const [best] = [...shown.values()]
      .map((one) => ({ ...one, now: [...one.by].filter((slip) => left.has(slip)) }))
      .sort((a, b) => b.now.length - a.now.length || a.conditions.length - b.conditions.length);
    const { by: _, now, ...expectation } = best!;
    wanted.push({ ...expectation, notices: now.map(({ words }) => words) });
    for (const slip of now) left.delete(slip);
  }
  const seen = new Set([...shown.values()].flatMap(({ by }) => [...by]));
  return {
    tried: slips.length,
    noticed: slips.length - passed.length,
    wanted,
    silent: passed.flatMap(({ slip }) => (seen.has(slip) ? [] : slip.words)),
  };
}

interface LookAt {
  readonly mode: string | null;
  readonly conditions: readonly string[];
  readonly at: (simulation: Simulation) => ReadonlyMap<string, boolean | 'hunting'>;
}

/** Modes of the entry, then every one and two conditions set that are not as usual. */
function looksAt(network: Network, { modes }: Simulation): LookAt[] {
  const settable = [...network.items].flatMap(([item, { device }]) =>
    Object.entries(device.conditions).flatMap(([name, { presence, cause }]) =>
      presence || cause ? [] : `${item}.${name}`,
    ),
  );
  const sets = settable.flatMap((one, i) => [
    [one],
    ...settable.slice(i + 1).map((other) => [one, other]),
  ]);
  const usual = conditionsOf(network, {});
  return [
    ...[...modes.keys()].map((mode) => ({
      mode,
      conditions: [],
      at: (simulation: Simulation) => simulation.modes.get(mode)!.outcomes,
    })),
    ...sets.map((conditions) => ({
      mode: null,
      conditions,
      at: (simulation: Simulation) =>
        settleMode(
          simulation.network,
          'trial',
          Object.fromEntries(conditions.map((id) => [id, !usual.get(id)])),
        ).outcomes,
    })),
  ];
}
