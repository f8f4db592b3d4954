import { namesIn, splitReference } from '../../../schemas/index.ts';
import {
  atRest,
  conditionsOf,
  type Network,
  type Seen,
  type Simulation,
  settleMode,
} from '../../circuit/index.ts';
import { isBeyondControls } from '../beyond-controls.ts';
import type { After } from './apply.ts';
import type { Plan } from './plan.ts';

/** An outcome that is otherwise with the new device. */
export interface Difference {
  /** Mode in which it shows; null where it shows only in other combinations of conditions. */
  readonly mode: string | null;
  /** Conditions under which it shows, that are not as usual, by the old device's names. */
  readonly conditions: Readonly<Record<string, boolean>>;
  /** ITEM.outcome. */
  readonly outcome: string;
  readonly was: Seen;
  readonly now: Seen;
}

/** Both circuits beside each other. */
export interface Comparison {
  readonly differences: readonly Difference[];
  /** Modes compared, by id. */
  readonly modes: readonly string[];
  /** Combinations of conditions compared, from new. */
  readonly combinations: number;
  /** Whether these were all combinations there are of the conditions both have. */
  readonly exhaustive: boolean;
  /** Outcomes compared, ITEM.outcome. */
  readonly outcomes: readonly string[];
}

/** Most combinations compared for a page; tests ask for all. */
export const PAGE_COMBINATIONS = 64;

/** Families whose own outcomes are what the house feels, and not only what a display says. */
const FELT: readonly string[] = ['boiler', 'valve', 'pump', 'heater', 'safety'];

/**
 * Simulates old and new side by side: in every mode that both have, then under combinations
 * of all conditions that both have, each from new.
 * @param most combinations to compare; beyond it those of the demands, with every other
 *   condition set alone.
 */
export function compare(
  before: Simulation,
  after: Simulation,
  { conditions }: Pick<After, 'conditions'>,
  plan: Plan,
  most = PAGE_COMBINATIONS,
): Comparison {
  const outcomes = sharedOutcomes(before.network, plan);
  const modes = [...after.modes.keys()];
  const differences: Difference[] = modes.flatMap((mode) => {
    const [was, now] = [before.modes.get(mode)!, after.modes.get(mode)!];
    return differing(outcomes, was.outcomes, now.outcomes).map((d) => ({
      ...d,
      mode,
      conditions: before.network.system.modes[mode]!.conditions,
    }));
  });
  const { combinations, exhaustive } = combinationsOf(before.network, conditions, most);
  for (const given of combinations) {
    const was = outcomesUnder(before.network, given);
    const now = settleMode(after.network, '', renamed(given, conditions));
    for (const d of differing(outcomes, was, now.outcomes)) {
      if (differences.some(({ outcome }) => outcome === d.outcome)) continue;
      differences.push({ ...d, mode: null, conditions: unusual(before.network, given) });
    }
  }
  const rank = ({ outcome }: Difference) => {
    const [item] = splitReference(outcome);
    return ORDER.indexOf(before.network.items.get(item)!.device.family);
  };
  differences.sort((a, b) => rank(b) - rank(a));
  return { differences, modes, combinations: combinations.length, exhaustive, outcomes };
}

/** Families whose outcomes tell most, last. */
const ORDER: readonly string[] = ['receiver', 'control', 'valve', 'pump', 'boiler'];

const known = new WeakMap<Network, Map<string, ReadonlyMap<string, Seen>>>();

/** Outcomes of a circuit under conditions, from new; each worked out once a circuit. */
function outcomesUnder(network: Network, given: Given): ReadonlyMap<string, Seen> {
  const kept = known.get(network) ?? new Map<string, ReadonlyMap<string, Seen>>();
  known.set(network, kept);
  const key = JSON.stringify(given);
  const found = kept.get(key) ?? settleMode(network, '', given).outcomes;
  kept.set(key, found);
  return found;
}

/** Outcomes that mean the same in both: every other item's, and what is felt at this one. */
function sharedOutcomes({ items }: Network, { item, device }: Plan): string[] {
  return [...items.values()].flatMap(({ reference, device: own }) =>
    Object.keys(own.outcomes)
      .filter(
        (name) =>
          reference !== item ||
          (FELT.includes(device.family) && Object.hasOwn(device.outcomes, name)),
      )
      .map((name) => `${reference}.${name}`),
  );
}

function differing(
  outcomes: readonly string[],
  was: ReadonlyMap<string, Seen>,
  now: ReadonlyMap<string, Seen>,
): Pick<Difference, 'outcome' | 'was' | 'now'>[] {
  return outcomes.flatMap((outcome) => {
    const [a, b] = [was.get(outcome)!, now.get(outcome)!];
    return a === b ? [] : [{ outcome, was: a, now: b }];
  });
}

type Given = Readonly<Record<string, boolean>>;

/** Combinations of the conditions both circuits have. */
export function combinationsOf(
  network: Network,
  map: After['conditions'],
  most: number,
): { readonly combinations: readonly Given[]; readonly exhaustive: boolean } {
  const usual = conditionsOf(network, {});
  const shared = [...usual.keys()].filter((id) => map.get(id) !== null && isFelt(network, id));
  const product = (names: readonly string[]): Given[] =>
    names.reduce<Given[]>(
      (made, name) => made.flatMap((g) => [g, { ...g, [name]: !usual.get(name)! }]),
      [{}],
    );
  if (2 ** shared.length <= most) return { combinations: product(shared), exhaustive: true };
  const asks = shared.filter((id) => {
    const [item, name] = splitReference(id);
    return network.items.get(item)!.device.conditions[name]!.wants !== undefined;
  });
  const demands = product(asks.slice(0, Math.floor(Math.log2(most))));
  const called = demands.at(-1)!;
  const alone = shared
    .filter((id) => !asks.includes(id))
    .map((id) => ({ ...called, [id]: !usual.get(id)! }));
  return { combinations: [...demands, ...alone], exhaustive: false };
}

/** Whether a condition changes the circuit, and not only what is seen of it, as a lever does. */
function isFelt(network: Network, id: string): boolean {
  const [item, name] = splitReference(id);
  const { device } = network.items.get(item)!;
  if (isBeyondControls(device, name)) return false;
  const { elements, mechanism, conditions } = device;
  const rules = [
    ...Object.values(elements).flatMap((e) => (e.kind === 'contact' ? [e.closed] : [])),
    ...(mechanism?.moves.map(({ when }) => when) ?? []),
  ];
  return (
    conditions[name]!.presence === true ||
    rules.some((rule) => namesIn(rule).conditions.includes(name))
  );
}

/** Conditions by the new device's names; those it does not have are left as usual. */
export const renamed = (given: Given, map: After['conditions']): Given =>
  Object.fromEntries(
    Object.entries(given).flatMap(([id, value]) => {
      const to = map.has(id) ? map.get(id) : id;
      return to ? [[to, value]] : [];
    }),
  );

function unusual(network: Network, given: Given): Given {
  const usual = conditionsOf(network, {});
  return Object.fromEntries(Object.entries(given).filter(([id, v]) => usual.get(id) !== v));
}

/** Outcomes that a change of some conditions brings about in one circuit, from a mode's own. */
export function effectOf(
  simulation: Simulation,
  mode: string,
  change: Given,
): Pick<Difference, 'outcome' | 'was' | 'now'>[] {
  const { network } = simulation;
  const was = simulation.modes.get(mode)!;
  const given = { ...network.system.modes[mode]!.conditions, ...change };
  const { after } = network.system.modes[mode]!;
  const memory = after ? simulation.modes.get(after)!.state : atRest(network);
  const now = settleMode(network, mode, given, memory).outcomes;
  return differing([...was.outcomes.keys()], was.outcomes, now);
}
