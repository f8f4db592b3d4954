import { type Mode, splitReference } from '../../../schemas/index.ts';
import {
  INSTRUMENTS,
  type Network,
  type Reading,
  read,
  type Simulation,
} from '../../circuit/index.ts';
import { itemOf } from '../points.ts';
import { outcomeText } from '../spoken.ts';
import { type TestPair, testPairs } from '../test-pairs.ts';

/** One mode to bring about afterwards, with all that must be seen and read in it. */
export interface ProvingStep {
  readonly id: string;
  readonly mode: Mode;
  /** What the new device is asked for, and everything else that is not as usual. */
  readonly asked: readonly { readonly item: string; readonly title: string }[];
  /** Outcomes that some mode changes, and the new device's own. */
  readonly outcomes: readonly {
    readonly item: string;
    readonly text: string;
    readonly so: boolean;
  }[];
  readonly readings: readonly { readonly pair: TestPair; readonly reading: Reading }[];
}

/** Modes that can be brought about, in the entry's order, with the readings at the new terminals. */
export function provingSteps(after: Simulation, item: string): ProvingStep[] {
  const { network } = after;
  const pairs = pairsAt(network, item);
  const all = [...after.modes.values()].map(({ outcomes }) => outcomes);
  const tells = (outcome: string) =>
    itemOf(outcome) === item ||
    all.some((outcomes) => outcomes.get(outcome) !== all[0]!.get(outcome));
  return [...after.modes].flatMap(([id, settled]) => {
    const mode = network.system.modes[id]!;
    if (!mode.testable) return [];
    return [
      {
        id,
        mode,
        asked: askedIn(network, mode),
        outcomes: [...settled.outcomes]
          .filter(([outcome]) => tells(outcome))
          .map(([outcome, seen]) => ({
            item: itemOf(outcome),
            text: outcomeText(network, outcome, seen),
            so: seen !== false,
          })),
        readings: (mode.readings === 'none' ? [] : pairs).map((pair) => ({
          pair,
          reading: read(settled.solution, pair.from, pair.to, INSTRUMENTS[0]!),
        })),
      },
    ];
  });
}

/** One reading a terminal: to its neutral where one is there, else to earth; calls as pairs. */
function pairsAt(network: Network, item: string): TestPair[] {
  const own = testPairs(network).filter((pair) => pair.item === item);
  const toNeutral = new Set(own.filter(({ kind }) => kind === 'line').map(({ from }) => from));
  return own.filter(
    ({ kind, from }) =>
      kind === 'line' ||
      kind === 'call' ||
      kind === 'call to earth' ||
      (kind === 'line to earth' && !toNeutral.has(from)),
  );
}

function askedIn({ items }: Network, { conditions }: Mode) {
  return Object.entries(conditions).flatMap(([id, value]) => {
    const [item, name] = splitReference(id);
    const condition = items.get(item)!.device.conditions[name]!;
    if (value === condition.usual) return [];
    return [
      { item, title: value ? condition.title : (condition.otherwise ?? `Not: ${condition.title}`) },
    ];
  });
}
